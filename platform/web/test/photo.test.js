// A photo goes in by the phone's own way, is looked through in the page, and is marked by hand.
import assert from "node:assert/strict";
import { mkdirSync } from "node:fs";
import { after, before, test } from "node:test";
import { troubles } from "./looks.js";
import { ROOT, SMALL, browser, phone } from "./phone.js";
import { text } from "./texts.js";

const PICTURES = `${ROOT}artefacts/web`;
let running;
before(async () => {
    mkdirSync(PICTURES, { recursive: true });
    running = await browser();
});
after(async () => { await running?.close(); });

/** A phone with this photo open on Measure. */
async function withPhoto(file) {
    const hand = await phone(running, SMALL);
    const { page } = hand;
    await hand.openDemo();
    await hand.go("measure");
    await page.getByRole("button", { name: text("ui-photo-title") }).tap();
    const from = Date.now();
    await page.locator("#core-photo").setInputFiles(`${ROOT}tests/reference/photo/${file}`);
    await page.locator(".photo-stage").waitFor({ timeout: 60_000 });
    // What was found, or the points to mark by hand.
    await page.locator(".photo-stage .object, .photo-stage .handle").first().waitFor({ timeout: 60_000 });
    await page.locator(".from-photo .busy").waitFor({ state: "detached", timeout: 60_000 });
    console.log(`a photo was opened and looked through in ${Date.now() - from} ms`);
    return hand;
}

test("a photo into Measure, kept over a reload", async () => {
    const hand = await withPhoto("coin.png");
    const { page } = hand;
    await page.reload();
    const again = page.locator(".from-photo button.second.wide:not(#live-open)").first();
    await again.waitFor();
    await again.tap();
    await page.locator(".photo-stage").waitFor({ timeout: 60_000 });
    assert.deepEqual(hand.errors, []);
    await hand.close();
});

test("marks by hand: a length along two edges, an angle, a straight edge, with a magnifier under the finger", async () => {
    const hand = await withPhoto("rectangle.png");
    const { page } = hand;
    const photo = page.locator(".from-photo");
    await photo.getByRole("radio", { name: "Tongue", exact: true }).tap();
    await photo.locator("dl.numbers dd").first().waitFor();
    await photo.getByRole("button", { name: "Measure along two edges" }).tap();
    await photo.getByRole("button", { name: "2b, point 2 of edge 2" }).first().waitFor();
    await photo.getByRole("button", { name: "Mark an angle" }).tap();
    await photo.getByText(/^Angle \d/).waitFor();
    await photo.getByRole("button", { name: "Mark a straight edge" }).tap();
    await photo.getByText("Straight edge 1").waitFor();

    // A finger on a point: the magnifier shows beside it, and the point goes with the finger.
    await photo.getByRole("button", { name: "1a, point 1 of edge 1" }).first().tap();
    const stage = photo.locator(".photo-stage");
    await stage.scrollIntoViewIfNeeded();
    const inHand = stage.locator(".handle.in-hand");
    const before = await inHand.getAttribute("cx");
    const box = await inHand.boundingBox();
    const wire = await page.context().newCDPSession(page);
    const at = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
    await wire.send("Input.dispatchTouchEvent", { type: "touchStart", touchPoints: [at] });
    await wire.send("Input.dispatchTouchEvent", { type: "touchMove", touchPoints: [{ x: at.x + 12, y: at.y }] });
    await stage.locator(".magnifier").waitFor();
    await page.screenshot({ path: `${PICTURES}/photo-magnifier.png` });
    await wire.send("Input.dispatchTouchEvent", { type: "touchEnd", touchPoints: [] });
    await wire.detach();
    await stage.locator(".magnifier").waitFor({ state: "detached" });
    assert.notEqual(await inHand.getAttribute("cx"), before);

    for (const [name, part] of [["lengths", photo.locator("ul.marks").first()], ["numbers", photo.locator("dl.numbers")], ["straight", photo.locator("ul.marks").last()]]) {
        await part.scrollIntoViewIfNeeded();
        await page.screenshot({ path: `${PICTURES}/photo-${name}.png` });
    }
    assert.deepEqual(await troubles(page), []);

    // What was marked stays with the photo.
    await photo.getByRole("button", { name: "Keep the marks" }).tap();
    await page.reload();
    await page.locator(".from-photo button.second.wide:not(#live-open)").first().tap();
    await photo.getByText(/^Angle \d/).waitFor({ timeout: 60_000 });
    await photo.getByText("Straight edge 1").waitFor();
    assert.deepEqual(hand.errors, []);
    await hand.close();
});
