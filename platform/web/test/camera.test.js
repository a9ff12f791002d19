// The page's camera by itself (platform/web/page/camera.js), without the program: what it answers, what a frame is,
// and that it goes off. It needs no build.
import assert from "node:assert/strict";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { camera, film } from "./film.js";
import { ROOT, browser } from "./phone.js";
import { serve } from "./server.js";

let folder;
before(() => { folder = mkdtempSync(join(tmpdir(), "curbcore-camera-")); });
after(() => rmSync(folder, { recursive: true, force: true }));

/** The rules of the app's page, which hold here, too. */
const [RULES] = /<meta http-equiv="Content-Security-Policy"[^>]*>/.exec(readFileSync(`${ROOT}platform/web/page/index.html`, "utf8"));

/** A page with nothing but the camera and a place for its picture. */
async function alone(switches, work) {
    const running = await browser(switches);
    const server = await serve(`${ROOT}platform/web/page`);
    try {
        const page = await running.newPage();
        const errors = [];
        page.on("pageerror", (error) => errors.push(String(error)));
        await page.route("**/alone.html", (route) => route.fulfill({
            contentType: "text/html",
            body: `<!doctype html>${RULES}<script type="module" src="camera.js"></script><video id="view" autoplay muted playsinline></video>`,
        }));
        await page.goto(`${server.address}alone.html`);
        await page.waitForFunction(() => globalThis.curbcoreCamera);
        await work(page);
        assert.deepEqual(errors, []);
    } finally {
        await running.close();
        await server.stop();
    }
}

const open = (page) => page.evaluate(() => curbcoreCamera.open());
/** The next frame: its size, the picture's pixels to one of it, the number of bytes, and the mean of its green. */
const frame = (page) => page.evaluate(async () => {
    const frame = await curbcoreCamera.frame("view", 640);
    if (!frame) return null;
    const [width, height, still, pixels] = frame;
    let sum = 0;
    for (let at = 1; at < pixels.length; at += 4) sum += pixels[at];
    return { width, height, still, bytes: pixels.length, green: (4 * sum) / pixels.length };
});
/** Whether the video's stream has ended. */
const isOff = (page) => page.evaluate(() => document.getElementById("view").srcObject.getTracks().every((track) => track.readyState === "ended"));

test("frames are small and the newest; the picture has the camera's size", () => alone(
    camera(film(folder, "far", [["closer", 2]])),
    async (page) => {
        assert.equal(await open(page), "open");
        const first = await frame(page);
        assert.deepEqual([first.width, first.height, first.still, first.bytes], [640, 480, 2, 640 * 480 * 4]);
        assert.ok(first.green > 60 && first.green < 200, `${first.green}`);
        const picture = await page.evaluate(async () => {
            const bytes = await curbcoreCamera.take("view", 16 << 20);
            const bitmap = await createImageBitmap(new Blob([bytes]));
            return [[...bytes.slice(0, 4)], bitmap.width, bitmap.height];
        });
        console.log(`the picture begins with ${picture[0]}`);
        assert.deepEqual(picture.slice(1), [1280, 960]);
        // One that is too large for the app is taken as a frame of the video instead.
        const small = await page.evaluate(async () => [...(await curbcoreCamera.take("view", 1000)).slice(0, 3)]);
        assert.deepEqual(small, [0xff, 0xd8, 0xff]);
    },
));

test("the camera goes off when closed and when the page is hidden, and whoever waits for a frame gets none", () => alone(
    camera(film(folder, "off", [["closer", 1]])),
    async (page) => {
        assert.equal(await frame(page), null);
        await open(page);
        assert.ok(await frame(page));
        assert.ok(!(await isOff(page)));
        const waits = await page.evaluate(async () => {
            const frame = curbcoreCamera.frame("view", 640);
            await Promise.resolve();
            curbcoreCamera.close();
            return frame;
        });
        assert.equal(waits, null);
        assert.ok(await isOff(page));

        await open(page);
        assert.ok(await frame(page));
        await page.evaluate(() => {
            Object.defineProperty(document, "hidden", { value: true, configurable: true });
            document.dispatchEvent(new Event("visibilitychange"));
        });
        assert.ok(await isOff(page), "on while nobody sees the page");
        assert.equal(await frame(page), null);
        // Nor does it go on where the page was hidden while the person was asked.
        assert.equal(await open(page), "off");
        assert.equal(await page.evaluate(() => curbcoreCamera.take("view", 1 << 20)), null);
    },
));

test("refused, and no camera", async () => {
    await alone(camera(film(folder, "refused", [["closer", 1]]), "=deny"), async (page) => assert.equal(await open(page), "refused"));
    await alone(["--use-fake-ui-for-media-stream"], async (page) => assert.equal(await open(page), "absent"));
});
