// A photo goes in by the phone's own way and is looked through in the page.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { ROOT, SMALL, browser, phone } from "./phone.js";

let running;
before(async () => { running = await browser(); });
after(async () => { await running?.close(); });

test("a photo into Measure, kept over a reload", async () => {
    const hand = await phone(running, SMALL);
    const { page } = hand;
    await hand.openDemo();
    await hand.go("Measure");
    await page.getByRole("button", { name: "Measure from a photo" }).tap();
    const from = Date.now();
    await page.locator("#core-photo").setInputFiles(`${ROOT}tests/reference/photo/coin.png`);
    await page.locator(".photo-stage").waitFor({ timeout: 60_000 });
    // What was found, or the points to mark by hand.
    await page.locator(".photo-stage .object, .photo-stage .handle").first().waitFor({ timeout: 60_000 });
    await page.locator(".from-photo .busy").waitFor({ state: "detached", timeout: 60_000 });
    console.log(`a photo was opened and looked through in ${Date.now() - from} ms`);
    await page.reload();
    const again = page.locator(".from-photo button.second").first();
    await again.waitFor();
    await again.tap();
    await page.locator(".photo-stage").waitFor({ timeout: 60_000 });
    assert.deepEqual(hand.errors, []);
    await hand.close();
});
