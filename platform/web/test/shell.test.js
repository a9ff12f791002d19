// The page inside Android's small app (platform/android/shell), which a stand-in plays here: what would
// be a download goes to the phone's save dialog, and the screen and the push are asked for.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { throughGates } from "./job.js";
import { SMALL, browser, phone } from "./phone.js";

let running;
before(async () => { running = await browser(); });
after(async () => { await running?.close(); });

test("what the page asks of the app that carries it", async () => {
    const hand = await phone(running, SMALL, {}, () => {
        globalThis.asked = [];
        globalThis.CurbcoreShell = {
            save: (name, kind, base64) => globalThis.asked.push(["save", name, kind, atob(base64).slice(0, 15)]),
            awake: (on) => globalThis.asked.push(["awake", on]),
            shake: () => globalThis.asked.push(["shake"]),
        };
    });
    const { page } = hand;
    const asked = async (what) => (await page.evaluate(() => globalThis.asked)).filter(([word]) => word === what);
    assert.equal(await page.evaluate(async () => (await navigator.serviceWorker.getRegistrations()).length), 0);
    assert.deepEqual((await asked("awake")).at(-1), ["awake", false]);

    await hand.openDemo();
    await hand.go("Bench");
    await page.getByRole("button", { name: "The page to print" }).tap();
    await hand.tap("Save the page");
    await page.waitForFunction(() => globalThis.asked.some(([word]) => word === "save"));
    const [, name, kind, begins] = (await asked("save"))[0];
    assert.match(name, /^curbcore-.*\.html$/);
    assert.equal(kind, "text/html");
    assert.equal(begins, "<!DOCTYPE html>");
    await hand.go("Shelf");
    await hand.tap("To and from other devices");
    await hand.tap("Make the file");
    await page.waitForFunction(() => globalThis.asked.some(([, name]) => String(name).endsWith(".curbshelf")));

    await hand.go("Bench");
    await hand.tap("Begin the tests");
    await page.locator("article.step").waitFor();
    await page.locator(".step-nav .main").tap();
    await page.locator(".gate").waitFor();
    const held = await throughGates(page);
    assert.equal((await asked("shake")).length, held, "one push for each item");
    assert.deepEqual((await asked("awake")).at(-1), ["awake", true]);
    assert.deepEqual(hand.errors, []);
    await hand.close();
});
