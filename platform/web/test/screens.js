// Every screen, and how a hand gets to it.
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { makeFile, measureOnDrawing } from "./job.js";
import { ROOT } from "./phone.js";
import { begins, part, text } from "./texts.js";

const NUMBERS = 6;

/** Opens all that unfolds, of the numbers a few. */
async function unfold(page) {
    const details = async () => {
        await page.locator("details:not([open]) > summary").evaluateAll((all) => all.forEach((one) => one.click()));
        await page.waitForTimeout(300);
    };
    const open = async (closed, most) => {
        for (let left = most; left > 0 && (await closed.count()) > 0; left -= 1) {
            await closed.first().evaluate((one) => one.click());
            await page.waitForTimeout(150);
        }
    };
    await details();
    await open(page.locator('main [aria-expanded="false"]:not(.number):not(.target):visible'), 30);
    await details();
    await open(page.locator('main .number[aria-expanded="false"]:visible'), NUMBERS);
}

/** Calls `look(name, page)` on each. */
export async function everyScreen(hand, look) {
    const { page } = hand;
    await look("the first start", page);
    await hand.tap(begins("ui-new-find"));
    await page.getByRole("button", { name: text("ui-take-apart") }).waitFor();
    await look("size up", page);
    await hand.tap(text("ui-take-apart"));
    // The way on below the step; the line above says the same of the whole job.
    const next = page.locator(".step-nav button.main");
    for (let step = 0; step < 4 && (await page.locator(".gate").count()) === 0; step += 1) {
        await look(`teardown ${step}`, page);
        await next.tap();
        await page.waitForTimeout(300);
    }
    await look("a gate", page);
    await page.locator(".gate .could-not").tap();
    await page.locator(".stopped").waitFor();
    await look("stopped", page);
    await hand.go("home");
    await hand.openDemo();
    await page.locator("#place-donor").tap();
    await page.getByRole("heading", { name: text("way-title") }).waitFor();
    await look("an oven and its core", page);
    await hand.go("rewind");
    await page.locator(".answer-card .winding").waitFor();
    await look("rewind", page);
    await unfold(page);
    await look("rewind, unfolded", page);
    await hand.go("measure");
    const tongue = page.locator('[data-length="core.tongue_mm"]');
    await tongue.waitFor();
    await look("measure", page);
    await tongue.tap();
    await page.locator("#sheet-save").waitFor();
    await look("measure, a length's sheet", page);
    await page.locator("#sheet-close").tap();
    await unfold(page);
    await look("measure, unfolded", page);
    await page.locator("#core-photo").setInputFiles(`${ROOT}tests/reference/photo/coin.png`);
    await page.locator(".photo-stage .object, .photo-stage .handle").first().waitFor({ timeout: 60_000 });
    await searched(page);
    await look("measure, a photo", page);
    await hand.go("wind");
    await page.getByRole("button", { name: text("ui-wind-begin") }).waitFor();
    await look("wind", page);
    await hand.tap(text("ui-wind-begin"));
    await page.locator("article.step").waitFor();
    await look("a step of the winding", page);
    await hand.go("bench");
    await page.getByRole("button", { name: text("ui-to-page") }).waitFor();
    await look("bench", page);
    await page.getByRole("button", { name: text("ui-to-page") }).tap();
    await page.getByRole("button", { name: "Save the page" }).waitFor();
    await look("the page", page);
    await hand.go("home");
    await page.locator(".card .go").first().waitFor();
    await look("home", page);
    await hand.go("compare");
    await page.getByRole("heading", { name: text("ui-compare-cores") }).waitFor();
    await look("compare", page);
    await hand.go("more");
    await look("more", page);
    await unfold(page);
    await look("more, unfolded", page);
    await hand.tap(text("glossary-open"));
    await page.locator(".glossary").waitFor();
    await look("words of the trade", page);
    await hand.go("more");
    await hand.tap(text("ui-sync-open"));
    await page.getByRole("heading", { name: text("ui-sync-in") }).waitFor();
    await page.locator("details.seal > summary").tap();
    await look("other devices", page);
    await hand.tap(text("ui-sync-make"));
    await page.getByText(part("ui-sync-made")).waitFor();
    await look("other devices, a file made", page);
    await hand.go("bench");
    await hand.tap(text("ui-begin-tests"));
    await page.locator("article.step").waitFor();
    await look("a test", page);
    await hand.go("measure");
    await measureOnDrawing(page, "core.stack_mm", "60");
    await page.locator("#asked-keep").waitFor();
    await look("a change that voids tests", page);
    await page.locator("#asked-keep").tap();
    await hand.go("rewind");
    await page.locator('.choices [data-word="choke"]').tap();
    await page.locator("#asked-change").tap();
    const card = page.locator(".answer-card");
    await card.getByText(text("ui-answer-inductance")).or(card.locator(".danger")).first().waitFor();
    await look("rewind, a choke", page);
}

/** Two devices that changed one length differently; calls `look` where the second is asked which counts. */
export async function conflict(first, second, look) {
    const folder = mkdtempSync(join(tmpdir(), "curbcore-conflict-"));
    const carry = async (from, to, name) => {
        const waits = from.page.waitForEvent("download");
        await makeFile(from);
        const path = join(folder, name);
        await (await waits).saveAs(path);
        await to.go("more");
        await to.tap(text("ui-sync-open"));
        await to.page.locator("#sync-in").setInputFiles(path);
        await to.page.getByRole("button", { name: text("ui-sync-take") }).waitFor({ timeout: 60_000 });
    };
    const take = async (hand) => {
        await hand.page.getByRole("button", { name: text("ui-sync-take") }).tap();
        await hand.page.getByText(text("ui-sync-taken")).waitFor({ timeout: 60_000 });
    };
    const stack = async (hand, value) => {
        await hand.go("home");
        await hand.page.locator(".card-open").first().tap();
        await hand.go("measure");
        await measureOnDrawing(hand.page, "core.stack_mm", value);
    };
    await first.openDemo();
    await carry(first, second, "one.curbshelf");
    await take(second);
    await stack(first, "71");
    await stack(second, "73");
    await carry(first, second, "two.curbshelf");
    await look("a file from another device", second.page);
    await take(second);
    await second.page.locator(".conflict").first().waitFor();
    await look("a conflict", second.page);
    rmSync(folder, { recursive: true, force: true });
}

/** Until the searches of a photo are over: for the object, for the core, for the stack, one after the other. */
const searched = (page) => page.waitForFunction(() => {
    if (window.lastBusy === undefined || document.querySelector(".from-photo .busy")) window.lastBusy = performance.now();
    return performance.now() - window.lastBusy > 1500;
}, undefined, { timeout: 120_000 });
