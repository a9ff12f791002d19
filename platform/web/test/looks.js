// What is wrong with a screen as it stands: sticking out sideways, controls too small, what axe finds.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/** What sticks out of the screen's width, named; nothing where the page does not scroll sideways. */
export function sideways() {
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

/** Everything that is wrong with the screen, named. */
export async function troubles(page) {
    // A reload has thrown it away.
    if (!(await page.evaluate(() => "axe" in globalThis))) await page.evaluate(axe);
    const found = await page.evaluate(async () => {
        const { violations } = await globalThis.axe.run(document, { iframes: false });
        return violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.target.join(" ")).slice(0, 3).join(" | ")}`);
    });
    return [...await page.evaluate(sideways), ...await page.evaluate(small), ...found];
}
