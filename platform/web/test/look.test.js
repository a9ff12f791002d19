// Every screen: no sideways scroll, controls that a glove hits, no violation that axe knows.
import assert from "node:assert/strict";
import { mkdirSync } from "node:fs";
import { createRequire } from "node:module";
import { after, before, test } from "node:test";
import { ROOT, SMALL, browser, phone } from "./phone.js";
import { everyScreen } from "./screens.js";

const axe = createRequire(import.meta.url).resolve("axe-core/axe.min.js");
const PICTURES = `${ROOT}artefacts/web`;
let running;
before(async () => {
    mkdirSync(PICTURES, { recursive: true });
    running = await browser();
});
after(async () => { await running?.close(); });

/** What sticks out of the screen's width, named; nothing where the page does not scroll sideways. */
function sideways() {
    const width = document.documentElement.clientWidth;
    // What is fixed and scrolls by itself counts like the page.
    const boxes = [document.scrollingElement, ...document.querySelectorAll(".gate, main, .rail")];
    if (boxes.every((box) => box.scrollWidth <= box.clientWidth)) return [];
    return [...document.querySelectorAll(".app *")]
        .filter((element) => element.getBoundingClientRect().right > width + 0.5 && !element.closest("svg svg, svg *"))
        .map((element) => `${element.tagName}.${element.className} "${element.textContent.slice(0, 30)}"`)
        .slice(-4);
}

/** Controls smaller than a fingertip in a glove. */
function small() {
    const controls = document.querySelectorAll("button, input, select, textarea, summary, a[href]");
    return [...controls]
        .map((control) => [control, control.getBoundingClientRect()])
        .filter(([, box]) => box.width > 0 && box.height > 0)
        .filter(([, box]) => box.width < 47.9 || box.height < 47.9)
        .map(([control, box]) => `${control.tagName}.${control.className} "${control.textContent.slice(0, 20)}" `
            + `${box.width.toFixed(1)} x ${box.height.toFixed(1)}`);
}

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
        const hand = await phone(running, SMALL, { colorScheme: scheme, bypassCSP: true });
        await hand.page.addScriptTag({ path: axe });
        const wrong = {};
        await everyScreen(hand, async (name, page) => {
            await page.screenshot({ path: `${PICTURES}/${scheme}-${name}.png`, fullPage: true });
            const found = await page.evaluate(async () => {
                const { violations } = await globalThis.axe.run(document, { iframes: false });
                return violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.target.join(" ")).slice(0, 3).join(" | ")}`);
            });
            const all = [...await page.evaluate(small), ...found];
            if (all.length > 0) wrong[name] = all;
        });
        assert.deepEqual(wrong, {});
        assert.deepEqual(hand.errors, []);
        await hand.close();
    });
}
