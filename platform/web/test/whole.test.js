// The whole job on a phone: from an empty shelf to the commissioning record, with the signal and the
// page lost on the way.
import assert from "node:assert/strict";
import { mkdirSync } from "node:fs";
import { after, before, test } from "node:test";
import { beginTests, beginWinding, design, measureCore, proveAll, sizeUp, takeApart, turnsOn, windUp } from "./job.js";
import { troubles } from "./looks.js";
import { LARGE, ROOT, SMALL, browser, phone } from "./phone.js";
import { text } from "./texts.js";

const PICTURES = `${ROOT}artefacts/web`;
let running;
before(async () => {
    mkdirSync(PICTURES, { recursive: true });
    running = await browser();
});
after(async () => { await running?.close(); });

for (const size of [SMALL, LARGE]) {
    test(`from an empty shelf to a proved core at ${size.width} x ${size.height}`, async () => {
        const hand = await phone(running, size);
        const { page } = hand;
        const shoot = (name) => page.screenshot({ path: `${PICTURES}/job-${size.width}-${name}.png` });

        // Each step and gate is looked at on the small phone.
        const wrong = {};
        const look = async (title) => {
            const all = size === SMALL ? await troubles(page) : [];
            if (all.length > 0) wrong[title] = all;
        };

        // A find at the curb.
        await sizeUp(hand, () => shoot("1-find"));

        // Apart. At one step the signal goes, and the page with it; at another only the page.
        await hand.keptForOffline();
        const seen = [];
        const held = await takeApart(page, async (title) => {
            seen.push(title);
            if (seen.length === 5) {
                await hand.server.stop();
                await hand.context.setOffline(true);
            }
            if (seen.length === 5 || seen.length === 8) {
                await page.reload();
                await page.locator(".rail").waitFor();
                assert.equal(await hand.here(), "teardown");
                assert.equal(await page.locator("article.step h2").innerText(), title, "the same step after a reload");
            }
        }, look);
        assert.equal(new Set(seen).size, seen.length, "no step twice");
        assert.ok(held >= 15, `${held} items were held in the teardown`);
        await shoot("2-apart");

        // Measured, on the same phone, still with no signal.
        await measureCore(hand);
        await shoot("3-measured");

        // Designed.
        await design(hand);
        await shoot("4-designed");

        // Wound, with the page lost in the middle of a layer.
        await beginWinding(hand);
        assert.equal(await windUp(page, look, (turns) => turns === 5), null);
        await look("the turn counter");
        await shoot("5-winding");
        await page.reload();
        await page.locator(".rail").waitFor();
        assert.equal(await hand.here(), "wind");
        assert.equal(await turnsOn(page), 5, "the same turn after a reload");
        const wound = await windUp(page, look);
        await page.getByRole("heading", { name: text("ui-wound"), exact: true }).waitFor();
        await shoot("6-wound");

        // Proved.
        await beginTests(hand);
        const more = await proveAll(page, look);
        assert.ok(more >= 15, `${more} items were held at the bench`);
        await page.getByRole("heading", { name: text("ui-commissioned") }).waitFor();
        const record = await page.locator(".record").innerText();
        assert.doesNotMatch(record, /–\s*$|!/m, "every prediction has a reading in its band");
        await shoot("7-proved");

        // And found so by who opens it tomorrow.
        await page.reload();
        await page.getByRole("heading", { name: text("ui-commissioned") }).waitFor();
        assert.deepEqual(wrong, {});
        console.log(`${seen.length} steps, ${held} + ${wound} + ${more} items held`);
        assert.deepEqual(hand.errors.filter((error) => !error.includes("ERR_INTERNET_DISCONNECTED")), []);
        assert.deepEqual(hand.foreign, []);
        await hand.context.close();
    });
}
