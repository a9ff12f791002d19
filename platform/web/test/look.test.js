// Every screen: no sideways scroll, controls that a glove hits, no violation that axe knows.
import assert from "node:assert/strict";
import { mkdirSync } from "node:fs";
import { after, before, test } from "node:test";
import { sideways, troubles, unnamed, unreached } from "./looks.js";
import { ROOT, SMALL, browser, phone } from "./phone.js";
import { conflict, everyScreen } from "./screens.js";
import { text } from "./texts.js";

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
        const look = async (name, page) => {
            await page.screenshot({ path: `${PICTURES}/${scheme}-${name}.png`, fullPage: true });
            const all = await troubles(page);
            if (all.length > 0) wrong[name] = all;
        };
        await everyScreen(hand, look);
        const [first, second] = [await phone(running, SMALL), await phone(running, SMALL, { colorScheme: scheme })];
        await conflict(first, second, look);
        assert.deepEqual(wrong, {});
        assert.deepEqual([...hand.errors, ...first.errors, ...second.errors], []);
        for (const one of [hand, first, second]) await one.close();
    });
}

test("pictures of every screen at the other widths", async () => {
    for (const [width, height] of [[320, 640], [412, 915], [768, 1024], [1280, 800]]) {
        for (const scheme of ["light", "dark"]) {
            const hand = await phone(running, { width, height }, { colorScheme: scheme, deviceScaleFactor: 1 });
            const wrong = {};
            await everyScreen(hand, async (name, page) => {
                await page.screenshot({ path: `${PICTURES}/${width}-${scheme}-${name}.png`, fullPage: true });
                const out = await page.evaluate(sideways);
                if (out.length > 0) wrong[name] = out;
            });
            assert.deepEqual(wrong, {}, `${width} px, ${scheme}`);
            await hand.close();
        }
    }
});

test("a screen reader is told what every control is", async () => {
    const hand = await phone(running, SMALL);
    const wrong = {};
    const look = async (name, page) => {
        const all = await unnamed(page);
        if (all.length > 0) wrong[name] = all;
    };
    await everyScreen(hand, look);
    const [first, second] = [await phone(running, SMALL), await phone(running, SMALL)];
    await conflict(first, second, look);
    assert.deepEqual(wrong, {});
    for (const one of [hand, first, second]) await one.close();
});

test("the keyboard alone reaches every control, and shows where it is", async () => {
    const hand = await phone(running, { width: 1280, height: 800 });
    const wrong = {};
    await everyScreen(hand, async (name, page) => {
        // What unfolds is reached like the rest; its many numbers would be walked through one by one.
        if (name.endsWith("unfolded")) return;
        const all = await unreached(page);
        if (all.length > 0) wrong[name] = all;
    });
    assert.deepEqual(wrong, {});
    await hand.close();
});

test("Escape closes what lies over a screen", async () => {
    const hand = await phone(running, { width: 1280, height: 800 });
    const { page } = hand;
    const gone = async (selector) => {
        await page.locator(selector).waitFor();
        await page.keyboard.press("Escape");
        await page.locator(selector).waitFor({ state: "detached" });
    };
    await page.keyboard.press("?");
    await gone(".keys");
    await hand.openDemo();
    await hand.go("measure");
    await page.locator('[data-length="core.stack_mm"]').tap();
    await gone(".entry-sheet");
    const back = await page.evaluate(() => document.activeElement?.dataset.length);
    assert.equal(back, "core.stack_mm", "the focus goes back to where it was");
    await hand.go("bench");
    await hand.tap(text("ui-begin-tests"));
    await page.locator("article.step").waitFor();
    await hand.go("rewind");
    await page.locator('.choices [data-word="choke"]').tap();
    await gone(".asked.change");
    assert.equal(await page.locator('.choices [data-word="spot_welder"]').getAttribute("aria-checked"), "true", "nothing is changed");
    await hand.close();
});
