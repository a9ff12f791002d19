// Every screen: no sideways scroll, controls that a glove hits, no violation that axe knows.
import assert from "node:assert/strict";
import { mkdirSync } from "node:fs";
import { after, before, test } from "node:test";
import { sideways, troubles } from "./looks.js";
import { ROOT, SMALL, browser, phone } from "./phone.js";
import { everyScreen } from "./screens.js";

const PICTURES = `${ROOT}artefacts/web`;
let running;
before(async () => {
    mkdirSync(PICTURES, { recursive: true });
    running = await browser();
});
after(async () => { await running?.close(); });

/** Text twice as large, as the phone's setting for it does: every size of letters, nothing else. */
function twice() {
    const all = [...document.querySelectorAll(".app, .app *")];
    const sizes = all.map((element) => parseFloat(getComputedStyle(element).fontSize));
    all.forEach((element, index) => { element.style.fontSize = `${sizes[index] * 2}px`; });
}
function once() {
    document.querySelectorAll(".app, .app *").forEach((element) => { element.style.removeProperty("font-size"); });
}

test("no sideways scroll at 320 px", async () => {
    const hand = await phone(running, { width: 320, height: 640 });
    const wrong = {};
    await everyScreen(hand, async (name, page) => {
        const out = await page.evaluate(sideways);
        if (out.length > 0) wrong[name] = out;
    });
    assert.deepEqual(wrong, {});
    await hand.close();
});

test("no sideways scroll with text at 200 %", async () => {
    const hand = await phone(running, SMALL);
    const wrong = {};
    await everyScreen(hand, async (name, page) => {
        await page.evaluate(twice);
        const out = await page.evaluate(sideways);
        if (out.length > 0) {
            wrong[name] = out;
            await page.screenshot({ path: `${PICTURES}/200-${name}.png` });
        }
        await page.evaluate(once);
    });
    assert.deepEqual(wrong, {});
    await hand.close();
});

for (const scheme of ["light", "dark"]) {
    test(`controls and axe, ${scheme}`, async () => {
        const hand = await phone(running, SMALL, { colorScheme: scheme });
        const wrong = {};
        await everyScreen(hand, async (name, page) => {
            await page.screenshot({ path: `${PICTURES}/${scheme}-${name}.png`, fullPage: true });
            const all = await troubles(page);
            if (all.length > 0) wrong[name] = all;
        });
        assert.deepEqual(wrong, {});
        assert.deepEqual(hand.errors, []);
        await hand.close();
    });
}
