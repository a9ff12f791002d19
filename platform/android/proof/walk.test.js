// The whole job in the package: from an empty shelf to the record of its tests, killed inside a gate on
// the way and in the middle of a layer, with the page and the shelf's file saved and taken in on another phone.
import assert from "node:assert/strict";
import { mkdirSync } from "node:fs";
import { test } from "node:test";
import {
    beginTests, beginWinding, design, makeFile, measureCore, proveAll, sizeUp, takeApart, turnsOn, windUp,
} from "../../web/test/job.js";
import { ROOT, hold } from "../../web/test/phone.js";
import { text } from "../../web/test/texts.js";
import { newPhone, open } from "./phone.js";

const PICTURES = `${ROOT}artefacts/android`;

/** How many items of the gate are confirmed. */
const confirmed = (page) => page.locator(".gate .items .confirmed").count();

/** Steps on to the next gate. */
async function toTheGate(page) {
    for (let step = 0; step < 6 && (await page.locator(".gate").count()) === 0; step += 1) {
        await page.locator(".step-nav .main").tap();
        await page.waitForTimeout(300);
    }
    await page.locator(".gate").waitFor();
}

/** No fault of the page, no request that the package did not answer, no call that it refused. */
function nothingWrong(hand) {
    assert.deepEqual(hand.refused, []);
    assert.deepEqual(hand.errors, []);
    assert.deepEqual(hand.foreign, []);
    assert.deepEqual(hand.answered.filter(([, status]) => status !== 200), []);
}

test("the whole job, from a find to its record, in the package", async () => {
    mkdirSync(PICTURES, { recursive: true });
    const phone = newPhone();
    let hand = await open(phone);
    const shoot = (name) => hand.page.screenshot({ path: `${PICTURES}/${name}.png` });
    await sizeUp(hand, () => shoot("1-find"));
    assert.equal(await hand.asked(/^screen /), "screen on", "the screen stays on in the teardown");

    // Killed inside a gate: the same step, the same count, and the gate still stands.
    await toTheGate(hand.page);
    await hold(hand.page, hand.page.locator(".gate .hold"));
    await hand.page.locator(".gate .items .confirmed").first().waitFor();
    await hand.asked(/^push /);
    const before = await confirmed(hand.page);
    await shoot("2-gate");
    nothingWrong(hand);
    await hand.kill();
    hand = await open(phone);
    if ((await hand.page.locator(".gate").count()) === 0) await toTheGate(hand.page);
    assert.equal(await confirmed(hand.page), before);

    // Back, right after that, leaves the app; with a screen before it, it leads there, never past the gate.
    assert.deepEqual(await hand.back(), ["leave"]);
    assert.equal(await confirmed(hand.page), before);
    const place = await hand.here();
    await hand.page.locator(".gate").getByRole("button", { name: text("ui-gate-back") }).tap();
    await hand.page.locator(".gate").waitFor({ state: "detached" });
    await hand.go("home");
    await hand.go(place);
    await toTheGate(hand.page);
    assert.deepEqual(await hand.back(), ["back"]);
    await hand.page.locator(".gate").waitFor({ state: "detached" });
    await hand.go(place);
    await toTheGate(hand.page);
    assert.equal(await confirmed(hand.page), before);

    const held = await takeApart(hand.page);
    assert.ok(held >= 15, `${held} items were held in the teardown`);
    await measureCore(hand);
    assert.equal(await hand.asked(/^screen /), "screen as ever", "the screen may go dark again");
    await design(hand);
    await shoot("3-design");

    // Killed in the middle of a layer: the same turn.
    await beginWinding(hand);
    assert.equal(await windUp(hand.page, undefined, (turns) => turns === 5), null);
    assert.equal(await hand.asked(/^screen /), "screen on", "the screen stays on while it is wound");
    await shoot("4-winding");
    nothingWrong(hand);
    await hand.kill();
    hand = await open(phone);
    assert.equal(await turnsOn(hand.page), 5);
    const wound = await windUp(hand.page);
    await hand.page.getByRole("heading", { name: text("ui-wound"), exact: true }).waitFor();

    await beginTests(hand);
    assert.equal(await hand.asked(/^screen /), "screen on", "the screen stays on at the bench");
    const more = await proveAll(hand.page);
    assert.ok(more >= 15, `${more} items were held at the bench`);
    await hand.page.getByRole("heading", { name: text("ui-commissioned") }).waitFor();
    await shoot("5-proved");

    // The page, and the shelf's file.
    await hand.tap(text("ui-to-page"));
    await hand.tap(/^Save the page/);
    assert.match(await hand.asked(/^start 2 /), /CREATE_DOCUMENT text\/html .* curbcore-.*\.html$/);
    await hand.saveAs("content://documents/page");
    await hand.asked(/^say Saved: curbcore-.*\.html$/);
    assert.match(String(await hand.document("content://documents/page")), /^<!DOCTYPE html>[^]*<\/html>\s*$/);
    await makeFile(hand);
    await hand.asked(/^start 2 .*\.curbshelf$/);
    await hand.saveAs("content://documents/shelf");
    await hand.asked(/^say Saved: .*\.curbshelf$/);
    const file = await hand.document("content://documents/shelf");
    assert.equal(file.subarray(0, 2).toString(), "PK");
    nothingWrong(hand);
    await hand.close();
    phone.throwAway();

    // On another phone: taken in, and the record is there.
    const second = newPhone();
    hand = await open(second);
    await hand.go("more");
    await hand.tap(text("ui-sync-open"));
    await hand.page.locator("#sync-in").waitFor({ state: "attached" });
    await hand.code.ask("/set?content://documents/shelf", file);
    const picked = await hand.choose(() => hand.page.locator("#sync-in").click(), () => hand.pickDocument("content://documents/shelf"));
    assert.equal(picked, "content://documents/shelf");
    await hand.tap(text("ui-sync-take"));
    await hand.page.getByText(text("ui-sync-taken")).waitFor({ timeout: 60_000 });
    await hand.go("home");
    await hand.page.locator(".card-open").first().tap();
    for (const [procedure, items] of [["teardown", held], ["wind", wound], ["bench", more]]) {
        await hand.go(procedure);
        await hand.page.locator(".elsewhere details").first().waitFor();
        const lines = await hand.page.locator(".elsewhere li").count();
        assert.ok(lines > items, `${lines} lines came along of the ${items} items held in ${procedure}`);
    }
    await shoot("6-taken-in");
    nothingWrong(hand);
    await hand.close();
    second.throwAway();
    console.log(`${held} + ${wound} + ${more} items were held`);
});
