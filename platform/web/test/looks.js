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

/** Words in drawings that are less than 12 px high. */
function tiny() {
    const found = new Set();
    for (const words of document.querySelectorAll("svg text")) {
        const matrix = words.getScreenCTM();
        const size = matrix ? Math.hypot(matrix.a, matrix.b) * parseFloat(getComputedStyle(words).fontSize) : 0;
        if (size > 0 && size < 11.95) found.add(`${words.closest("svg").getAttribute("class")}: "${words.textContent}" ${size.toFixed(1)} px`);
    }
    return [...found].slice(0, 4);
}

const CONTROLS = new Set(["button", "link", "textbox", "searchbox", "combobox", "radio", "switch", "checkbox", "spinbutton", "DisclosureTriangle"]);
const GROUPS = new Set(["group", "radiogroup", "region", "dialog", "alertdialog", "navigation", "form", "figure", "article"]);

/** What a screen reader is told: controls without a name, or two that it cannot tell apart. */
export async function unnamed(page) {
    const wire = await page.context().newCDPSession(page);
    const { nodes } = await wire.send("Accessibility.getFullAXTree");
    await wire.detach();
    const byId = new Map(nodes.map((node) => [node.nodeId, node]));
    const name = (node) => (node.name?.value ?? "").trim();
    const place = (node) => {
        const names = [];
        for (let up = byId.get(node.parentId); up; up = byId.get(up.parentId)) {
            if (GROUPS.has(up.role?.value) && name(up)) names.push(name(up));
            // A list's entry is told apart by its first words.
            if (up.role?.value === "listitem") names.push(up.nodeId);
        }
        return names.join(" < ");
    };
    const seen = new Map();
    const wrong = [];
    for (const node of nodes) {
        if (node.ignored || !CONTROLS.has(node.role?.value)) continue;
        const role = node.role.value;
        if (!/[\p{L}\p{N}]/u.test(name(node))) wrong.push(`a ${role} is named "${name(node)}" in ${place(node)}`);
        const key = `${role} "${name(node)}" in ${place(node)}`;
        if (seen.has(key)) wrong.push(`twice: ${key}`);
        seen.set(key, true);
    }
    return [...new Set(wrong)];
}

/** What the keyboard alone does not reach, or reaches without a sign; goes once round with the Tab key. */
export async function unreached(page) {
    const count = await page.evaluate(() => {
        document.activeElement?.blur();
        scrollTo(0, 0);
        const shown = (control) => control.checkVisibility({ visibilityProperty: true }) && !control.disabled;
        const inGate = document.querySelector(".gate");
        const all = [...(inGate ?? document).querySelectorAll("button, input, select, textarea, summary, a[href]")].filter(shown);
        all.forEach((control, at) => { control.dataset.walk = at; });
        return all.length;
    });
    const reached = new Set();
    const wrong = new Set();
    for (let left = count * 2 + 30; left > 0 && reached.size < count; left -= 1) {
        await page.keyboard.press("Tab");
        const at = await page.evaluate(() => {
            const control = document.activeElement;
            if (!control || control === document.body) return null;
            const look = getComputedStyle(control);
            const box = control.getBoundingClientRect();
            const name = `${control.tagName}.${control.className} "${control.textContent.slice(0, 30)}"`;
            const outlined = look.outlineStyle !== "none" && parseFloat(look.outlineWidth) >= 2;
            const inSight = box.bottom > 0 && box.top < innerHeight && box.right > 0 && box.left < innerWidth;
            return { walk: control.dataset.walk, name, fine: control.tagName === "IFRAME" || (outlined && inSight) };
        });
        if (at?.walk !== undefined) reached.add(at.walk);
        if (at && !at.fine) wrong.add(`no sign of the focus: ${at.name}`);
    }
    if (reached.size < count) {
        const missed = await page.evaluate((known) => [...document.querySelectorAll("[data-walk]")]
            .filter((control) => !known.includes(control.dataset.walk))
            .map((control) => `not reached: ${control.tagName}.${control.className} "${control.textContent.slice(0, 30)}"`), [...reached]);
        missed.slice(0, 5).forEach((one) => wrong.add(one));
    }
    await page.evaluate(() => document.querySelectorAll("[data-walk]").forEach((control) => delete control.dataset.walk));
    return [...wrong];
}

/** Controls whose own name does not begin with what stands first on them, as a person would say it. */
function misnamed() {
    const plain = (text) => text.replace(/\s+/g, " ").trim().toLowerCase();
    return [...document.querySelectorAll("button[aria-label]")]
        .map((control) => [control, control.querySelector("strong, .name, .stage-name")])
        .filter(([control, first]) => first && !plain(control.ariaLabel).startsWith(plain(first.textContent)))
        .map(([control, first]) => `"${first.textContent}" is named "${control.ariaLabel}"`);
}

/** Everything that is wrong with the screen, named. */
export async function troubles(page) {
    // A reload has thrown it away.
    if (!(await page.evaluate(() => "axe" in globalThis))) await page.evaluate(axe);
    const found = await page.evaluate(async () => {
        // Experimental in axe, and off unless asked for.
        const rules = { "label-content-name-mismatch": { enabled: true } };
        const { violations } = await globalThis.axe.run(document, { iframes: false, rules });
        return violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.target.join(" ")).slice(0, 3).join(" | ")}`);
    });
    return [...await page.evaluate(sideways), ...await page.evaluate(small), ...await page.evaluate(tiny), ...await page.evaluate(misnamed), ...found];
}
