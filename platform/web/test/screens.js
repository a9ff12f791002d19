// Every screen, and how a hand gets to it.
import { part, text } from "./texts.js";

const NUMBERS = 6;

/** Opens all that unfolds, of the numbers a few. */
async function unfold(page) {
    const details = async () => {
        await page.locator("details:not([open]) > summary").evaluateAll((all) => all.forEach((one) => one.click()));
        await page.waitForTimeout(300);
    };
    const open = async (closed, most) => {
        for (let left = most; left > 0 && (await closed.count()) > 0; left -= 1) {
            await closed.first().click();
            await page.waitForTimeout(150);
        }
    };
    await details();
    await open(page.locator('main [aria-expanded="false"]:not(.number):visible'), 30);
    await details();
    await open(page.locator('main .number[aria-expanded="false"]:visible'), NUMBERS);
}

/** Calls `look(name, page)` on each. */
export async function everyScreen(hand, look) {
    const { page } = hand;
    await look("the first start", page);
    await hand.tap(text("ui-new-find"));
    await page.getByRole("button", { name: text("ui-take-apart") }).waitFor();
    await look("size up", page);
    await hand.tap(text("ui-take-apart"));
    const next = page.getByRole("button", { name: text("ui-next-step") });
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
}
