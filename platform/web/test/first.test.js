// The app on a phone: it starts, keeps what is done, and needs no signal.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { openLengths } from "./job.js";
import { LARGE, SMALL, browser, phone } from "./phone.js";
import { text } from "./texts.js";

let running;
before(async () => { running = await browser(); });
after(async () => { await running?.close(); });

for (const size of [SMALL, LARGE]) {
    test(`a job at ${size.width} x ${size.height}, reloaded and offline`, async () => {
        const hand = await phone(running, size);
        const { page } = hand;
        await page.getByText("The work can kill").waitFor();
        await hand.openDemo();
        assert.equal(await hand.here(), "rewind");

        // Another winding is chosen and found again after the page was thrown away.
        await page.locator("details.others > summary").tap();
        await page.locator('[data-fold="shop-windings"]').tap();
        const second = page.locator(".winding-card").nth(1);
        const chosen = await second.locator("strong").first().innerText();
        await second.tap();
        await page.locator(".answer-card", { hasText: chosen }).waitFor();
        await page.reload();
        await page.locator(".answer-card", { hasText: chosen }).waitFor();

        // A number goes in with the fingers, and a step back takes nothing away.
        await hand.go("measure");
        await openLengths(page);
        const tongue = page.getByRole("textbox", { name: "Tongue width" }).first();
        await tongue.fill("38.1");
        await tongue.blur();
        await page.getByRole("button", { name: "Undo: Change Tongue width" }).waitFor();
        await hand.keptForOffline();
        await hand.server.stop();
        await hand.context.setOffline(true);
        await page.reload();
        await page.getByRole("button", { name: "Undo: Change Tongue width" }).waitFor();
        assert.equal(await page.getByRole("textbox", { name: "Tongue width" }).first().inputValue(), "38.1");
        await hand.go("rewind");
        await page.locator("strong.winding").waitFor();

        assert.deepEqual(hand.errors, []);
        assert.deepEqual(hand.foreign, []);
        await hand.context.close();
    });
}

test("the phone's back button walks back through the screens", async () => {
    const hand = await phone(running, SMALL);
    const { page } = hand;
    await hand.openDemo();
    await hand.go("measure");
    await page.locator('[data-length="core.tongue_mm"]').waitFor();
    await page.goBack();
    await page.locator("strong.winding").waitFor();
    await page.goBack();
    await page.getByRole("heading", { name: "Progress" }).waitFor();
    await page.goBack();
    await page.getByRole("heading", { name: text("ui-first-have") }).or(page.locator(".card")).first().waitFor();
    await page.goForward();
    await page.getByRole("heading", { name: "Progress" }).waitFor();
    assert.deepEqual(hand.errors, []);
    await hand.close();
});

test("a second page leaves the data alone", async () => {
    const hand = await phone(running, SMALL);
    await hand.openDemo();
    const other = await hand.context.newPage();
    await other.goto(hand.home);
    await other.getByText("is open in another window").waitFor();
    await hand.page.close();
    await other.reload();
    await other.locator("strong.winding").waitFor();
    await hand.close();
});

test("it can be installed", async () => {
    const hand = await phone(running, SMALL);
    await hand.keptForOffline();
    const wire = await hand.context.newCDPSession(hand.page);
    const { installabilityErrors } = await wire.send("Page.getInstallabilityErrors");
    const { errors } = await wire.send("Page.getAppManifest");
    // A private window, which each of these phones is, cannot install anything.
    const hinders = installabilityErrors.filter((error) => error.errorId !== "in-incognito");
    assert.deepEqual([hinders, errors], [[], []]);
    await hand.close();
});

test("the page is a download", async () => {
    const hand = await phone(running, SMALL);
    await hand.openDemo();
    await hand.go("bench");
    await hand.page.getByRole("button", { name: /page/i }).first().tap();
    const waits = hand.page.waitForEvent("download");
    await hand.tap("Save the page");
    const download = await waits;
    assert.match(download.suggestedFilename(), /^curbcore-.*\.html$/);
    assert.deepEqual(hand.errors, []);
    await hand.close();
});
