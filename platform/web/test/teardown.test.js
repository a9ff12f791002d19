// In the middle of a teardown: what was confirmed stays confirmed, and nothing more.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { SMALL, browser, hold, phone } from "./phone.js";
import { begins, text } from "./texts.js";

let running;
before(async () => { running = await browser(); });
after(async () => { await running?.close(); });

/** The gate's count: how many of its items are confirmed. */
const confirmed = (page) => page.locator(".gate .items .confirmed").count();

/** From an empty shelf to the first gate of a teardown. */
async function toTheGate(hand) {
    await hand.tap(begins("ui-new-find"));
    await hand.tap(text("ui-take-apart"));
    const next = hand.page.locator(".step-nav button.main");
    for (let step = 0; step < 4 && (await hand.page.locator(".gate").count()) === 0; step += 1) {
        await next.tap();
        await hand.page.waitForTimeout(300);
    }
    await hand.page.locator(".gate").waitFor();
}

test("reloaded and offline inside a gate", async () => {
    const hand = await phone(running, SMALL);
    const { page } = hand;
    await toTheGate(hand);
    assert.equal(await confirmed(page), 0);

    // A tap is not enough.
    await page.locator(".gate .hold").tap();
    await page.waitForTimeout(300);
    assert.equal(await confirmed(page), 0);
    await hold(page, page.locator(".gate .hold"));
    await page.locator(".gate .items .confirmed").waitFor();
    const before = await confirmed(page);

    await hand.keptForOffline();
    await hand.server.stop();
    await hand.context.setOffline(true);
    await page.reload();
    await page.locator(".rail").waitFor();
    assert.equal(await hand.here(), "teardown");
    if ((await page.locator(".gate").count()) === 0) {
        await page.locator(".step-nav button.main").tap();
        await page.locator(".gate").waitFor();
    }
    assert.equal(await confirmed(page), before);

    // The phone's back button leads out of the gate, and the way in leads through it again.
    await page.goBack();
    await page.waitForTimeout(500);
    assert.notEqual(await hand.here(), "teardown");
    await page.goForward();
    await page.waitForTimeout(500);
    assert.equal(await hand.here(), "teardown");
    if ((await page.locator(".gate").count()) === 0) {
        await page.locator(".step-nav button.main").tap();
    }
    await page.locator(".gate").waitFor();
    assert.equal(await confirmed(page), before);
    assert.deepEqual(hand.errors, []);
    await hand.context.close();
});
