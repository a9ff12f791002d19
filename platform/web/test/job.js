// The job as a person does it: through the gates, through the teardown's steps, through the tests.
import assert from "node:assert/strict";
import { hold } from "./phone.js";
import { begins, text } from "./texts.js";

const gateOn = (page) => page.locator(".gate");

/**
 * Which gate stands and how many of its items are confirmed, as a text; with an earlier one, whether it has
 * changed. Gates that are confirmed again as a whole have no count.
 */
const gateState = (before) => {
    const text = (selector) => document.querySelector(selector)?.innerText ?? "";
    const state = `${text("#gate-title")} ${text(".gate .count")}`;
    return before === undefined ? state : state !== before;
};

/** Holds the next item of the gate that stands, or proves the capacitor by three readings. */
async function oneItem(page) {
    const before = await page.evaluate(gateState);
    for (const id of ["ui-proof-between", "ui-proof-first", "ui-proof-second"]) {
        const field = page.locator(`#${id}`);
        if ((await field.count()) > 0) {
            await field.fill("0.4");
            await field.blur();
        }
    }
    await hold(page, page.locator(".gate .hold"));
    // The count moves, the next gate stands, or the step opens.
    await page.waitForFunction(gateState, before);
}

/** Through all gates that stand, each item held by itself, `look(title)` at each. Gives how many were held. */
export async function throughGates(page, look = async () => {}) {
    let held = 0;
    let seen = "";
    for (; held < 100 && (await gateOn(page).count()) > 0; held += 1) {
        const title = await page.locator("#gate-title").innerText();
        if (title !== seen) await look(title);
        seen = title;
        await oneItem(page);
    }
    assert.equal(await gateOn(page).count(), 0, "the gates have an end");
    return held;
}

/** What a record needs before the next step, by the word of the answer: in the teardown, and while it is wound. */
const ANSWERS = ["transformer", "high-voltage", "hacksaw", "leave-out"];
const WIND_ANSWERS = ["weld", "tape"];

/** Gives each of these answers that the step asks for. */
async function answerAll(page, place, words) {
    for (const word of words) {
        const answer = page.locator(`${place} [data-word="${word}"][aria-checked="false"]`);
        if ((await answer.count()) > 0) await answer.first().tap();
    }
}

/**
 * From where the teardown stands to its end. `between(title)` is called once at each step, and may
 * reload the page; `look(title)` at each step and gate. Gives how many items were held.
 */
export async function takeApart(page, between = async () => {}, look = async () => {}) {
    let held = 0;
    for (let left = 40; left > 0; left -= 1) {
        held += await throughGates(page, look);
        if ((await page.locator(".ended").count()) > 0) return held;
        const title = await page.locator("article.step h2").innerText();
        await between(title);
        await look(title);
        await answerAll(page, ".records", ANSWERS);
        await page.locator(".step-nav .main").tap();
        await page.waitForFunction((title) => {
            const heading = document.querySelector("article.step h2");
            return !heading || heading.innerText !== title;
        }, title);
    }
    throw new Error("the teardown has no end");
}

/** A text such as "12.3 mΩ" in the unit without its prefix. */
function amount(text) {
    const [number, unit = ""] = text.trim().split(/\s+/);
    const scale = { m: 1e-3, k: 1e3, M: 1e6 }[unit.length > 1 ? unit[0] : ""] ?? 1;
    return Number(number) * scale;
}

/** The middle of a band such as "1.20 to 1.30 V"; twice the least of "5 MΩ or more". */
function middle(band) {
    const least = band.match(/^(.*) or more$/);
    if (least) return 2 * amount(least[1]);
    const [low, high] = band.split(" to ").map(amount);
    return (low + high) / 2;
}

/** Reads what a good core shows, at the bench and of the primary while it is wound: the middle of each band. */
async function readAll(page) {
    const readings = page.locator("section.reading");
    for (let at = 0; at < (await readings.count()); at += 1) {
        const reading = readings.nth(at);
        const value = middle(await reading.locator(".band strong").innerText());
        const type = async (key, number) => {
            const field = reading.locator(`input[id^="${key}-"]`);
            if ((await field.count()) === 0) return;
            await field.fill(String(number));
            await field.blur();
        };
        await type("ui-read-ohms", `${value.toPrecision(6)} Ω`);
        // Four wires: 5 A, and the millivolts that they make.
        await type("ui-read-test-amps", 5);
        await type("ui-read-drop", (5000 * value).toPrecision(6));
        await type("ui-read-winding-at", 20);
        await type("ui-read-megohms", `${(value / 1e6).toPrecision(6)} MΩ`);
        await type("ui-read-fed", 10);
        await type("ui-read-other", (10 * value).toPrecision(6));
        await type("ui-read-amps", `${value.toPrecision(6)} A`);
        await type("ui-read-volts", `${value.toPrecision(6)} V`);
        await type("ui-read-over-coil", (2 * value).toPrecision(6));
        await type("ui-read-through-coil", 2);
        // A rise by the resistance method, with copper's 234.5.
        await type("ui-read-cold-ohms", 1);
        await type("ui-read-cold-at", 20);
        await type("ui-read-hot-ohms", (1 + value / 254.5).toPrecision(6));
        await type("ui-read-air", 20);
        await type("ui-read-run-amps", 10);
        const inStep = reading.locator('[data-word="+"]');
        if ((await inStep.count()) > 0) await inStep.tap();
        await reading.getByRole("button", { name: "Record this reading" }).tap();
        await reading.locator(".outcome").waitFor();
        assert.match(await reading.getAttribute("class"), /in-band/, await reading.innerText());
    }
}

/** From where the tests stand to the commissioning record. Gives how many items were held. */
export async function proveAll(page, look = async () => {}) {
    let held = 0;
    for (let left = 30; left > 0; left -= 1) {
        held += await throughGates(page, look);
        if ((await page.locator(".ended").count()) > 0) return held;
        const title = await page.locator("article.step h2").innerText();
        await readAll(page);
        await look(title);
        await page.locator(".step-nav .main").tap();
        await page.waitForFunction((title) => {
            const heading = document.querySelector("article.step h2");
            return !heading || heading.innerText !== title || document.querySelector(".gate");
        }, title);
    }
    throw new Error("the tests have no end");
}

/** From the shelf to the first step of a teardown, by way of a find; `look` at its verdict. */
export async function sizeUp(hand, look = async () => {}) {
    await hand.tap(begins("ui-new-find"));
    await hand.page.locator(".verdict").waitFor();
    await look();
    await hand.tap(text("ui-take-apart"));
    await hand.page.locator("article.step").waitFor();
}

/** From the end of a teardown to a core that is measured. */
export async function measureCore(hand) {
    const { page } = hand;
    await hand.tap(text("ui-start-job"));
    await page.locator("#asked-start").tap();
    for (const [path, value] of [["core.tongue_mm", "38.1"], ["core.stack_mm", "71"], ["core.window_width_mm", "19"], ["core.window_height_mm", "57"]]) {
        await measureOnDrawing(page, path, value);
    }
}

/** Taps a length on the core's drawing, types its value on the sheet's number pad, and saves it. */
export async function measureOnDrawing(page, path, value) {
    await page.locator(`[data-length="${path}"]`).tap();
    const sheet = page.locator(".entry-sheet");
    for (const key of value) await sheet.locator(".pad button", { hasText: key }).first().tap();
    await page.locator("#sheet-save").tap();
    await sheet.waitFor({ state: "detached" });
}

/** Opens the list of all lengths on Measure, the other way in beside the drawing. */
export async function openLengths(page) {
    const fold = page.locator('[data-fold="lengths"]');
    await fold.waitFor();
    if ((await fold.getAttribute("aria-expanded")) === "false") await fold.tap();
    await page.locator("#core-tongue_mm").waitFor();
}

/** Enters a number in the field with this id, and waits until it can be undone. */
export async function enter(page, id, value) {
    const label = await page.locator(`label[for="${id}"]`).first().innerText();
    const field = page.locator(`#${id}`);
    await field.fill(value);
    await field.blur();
    await page.locator(`button[aria-label$="${label.trim()}"]`).first().waitFor();
}

/** From a measured core to a winding that is chosen. */
export async function design(hand) {
    const { page } = hand;
    await hand.go("rewind");
    await page.locator('.choices [data-word="plain_supply"]').tap();
    await page.locator("#take-winding").tap();
    await page.locator("#best-winding").waitFor();
}

/** The number on the turn counter's button. */
export const turnsOn = async (page) => Number(await page.locator(".count-turn .turn-number").innerText());

/** From a winding to the first step of winding it. */
export async function beginWinding(hand) {
    await hand.go("wind");
    await hand.tap(text("ui-wind-begin"));
    await hand.page.locator("article.step").waitFor();
}

/**
 * Presses the turn counter until all turns are wound, and then gives infinity, or until `until(turns)` says
 * to stop: then how many are wound.
 */
async function countTurns(page, until) {
    for (let left = 2000; left > 0; left -= 1) {
        const button = page.locator(".count-turn");
        if ((await button.count()) === 0) return Infinity;
        const turns = await turnsOn(page);
        if (until(turns)) return turns;
        await button.tap();
        await page.waitForFunction((before) => {
            const number = document.querySelector(".count-turn .turn-number");
            return !number || number.innerText !== before;
        }, String(turns));
    }
    throw new Error("the winding has no end");
}

/**
 * From where the winding stands to its end. `look(title)` at each step and gate. Stops at the counter where
 * `until(turns)` says so, and then gives null; else how many items were held.
 */
export async function windUp(page, look = async () => {}, until = () => false) {
    let held = 0;
    for (let left = 40; left > 0; left -= 1) {
        held += await throughGates(page, look);
        if ((await page.locator(".ended").count()) > 0) return held;
        const title = await page.locator("article.step h2").innerText();
        if ((await countTurns(page, until)) !== Infinity) return null;
        await look(title);
        await readAll(page);
        await answerAll(page, "article.step", WIND_ANSWERS);
        await page.locator(".step-nav .main").tap();
        await page.waitForFunction((title) => {
            const heading = document.querySelector("article.step h2");
            return !heading || heading.innerText !== title || document.querySelector(".gate");
        }, title);
    }
    throw new Error("the winding has no end");
}

/** From a winding to the first of its tests. */
export async function beginTests(hand) {
    await hand.go("bench");
    await hand.tap(text("ui-begin-tests"));
    await hand.page.locator("article.step").waitFor();
}

/** A shelf file of all that is here, by way of *Other devices*. */
export async function makeFile(hand) {
    await hand.go("more");
    await hand.tap(text("ui-sync-open"));
    await hand.tap(text("ui-sync-make"));
}
