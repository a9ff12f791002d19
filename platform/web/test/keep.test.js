// What was entered is kept: through a crash, and when the browser says no for a while.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { openLengths } from "./job.js";
import { SMALL, browser, phone } from "./phone.js";
import { part } from "./texts.js";

let running;
before(async () => { running = await browser(); });
after(async () => { await running?.close(); });

const field = (page, name) => page.getByRole("textbox", { name }).first();

async function enter(page, name, value) {
    await field(page, name).fill(value);
    await field(page, name).blur();
    await page.getByRole("button", { name: `Undo: Change ${name}` }).waitFor();
}

async function atMeasure(size) {
    const hand = await phone(running, size);
    await hand.openDemo();
    await hand.go("measure");
    await openLengths(hand.page);
    await field(hand.page, "Tongue width").waitFor();
    return hand;
}

test("a page that crashes has lost nothing", async () => {
    const hand = await atMeasure(SMALL);
    await enter(hand.page, "Tongue width", "38.1");
    const wire = await hand.context.newCDPSession(hand.page);
    wire.send("Page.crash").catch(() => {});
    await hand.page.waitForEvent("crash");
    await hand.page.close();
    const again = await hand.context.newPage();
    await again.goto(hand.home);
    await field(again, "Tongue width").waitFor();
    assert.equal(await field(again, "Tongue width").inputValue(), "38.1");
    await hand.close();
});

test("what the browser refuses is told, and kept with the next change", async () => {
    const hand = await atMeasure(SMALL);
    const { page } = hand;
    await page.evaluate(() => {
        const real = IDBDatabase.prototype.transaction;
        IDBDatabase.prototype.transaction = () => { throw new DOMException("no room", "QuotaExceededError"); };
        globalThis.mend = () => { IDBDatabase.prototype.transaction = real; };
    });
    await enter(page, "Tongue width", "38.1");
    await page.getByRole("alert").getByText(part("ui-not-kept")).waitFor();
    await page.evaluate(() => globalThis.mend());
    await enter(page, "Stack", "71");
    await page.waitForTimeout(500);
    await page.reload();
    await field(page, "Tongue width").waitFor();
    assert.equal(await field(page, "Tongue width").inputValue(), "38.1");
    assert.equal(await field(page, "Stack").inputValue(), "71");
    assert.deepEqual(hand.errors, []);
    await hand.close();
});
