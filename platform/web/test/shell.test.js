// The page inside Android's small app (platform/android/shell), which a stand-in plays here: what would
// be a download goes to the phone's save dialog, and the screen and the push are asked for.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { throughGates } from "./job.js";
import { SMALL, browser, phone } from "./phone.js";
import { text } from "./texts.js";

let running;
before(async () => { running = await browser(); });
after(async () => { await running?.close(); });

test("what the page asks of the app that carries it", async () => {
    const hand = await phone(running, SMALL, {}, () => {
        globalThis.asked = [];
        globalThis.CurbcoreShell = {
            save: (id, name, kind, base64, last) => globalThis.asked.push(["save", name, kind, atob(base64), last, id]),
            awake: (on) => globalThis.asked.push(["awake", on]),
            shake: () => globalThis.asked.push(["shake"]),
        };
    });
    const { page } = hand;
    const asked = async (what) => (await page.evaluate(() => globalThis.asked)).filter(([word]) => word === what);
    assert.equal(await page.evaluate(async () => (await navigator.serviceWorker.getRegistrations()).length), 0);
    assert.deepEqual((await asked("awake")).at(-1), ["awake", false]);

    await hand.openDemo();
    await hand.go("bench");
    await page.getByRole("button", { name: text("ui-to-page") }).tap();
    await hand.tap("Save the page");
    await page.waitForFunction(() => globalThis.asked.some(([word, , , , last]) => word === "save" && last));
    const pieces = await asked("save");
    const [, name, kind, begins] = pieces[0];
    assert.match(name, /^curbcore-.*\.html$/);
    assert.equal(kind, "text/html");
    assert.match(begins, /^<!DOCTYPE html>/);
    assert.match(pieces.map((piece) => piece[3]).join(""), /<\/html>\s*$/);

    // A large file comes in pieces, in their order, the last one marked.
    await page.evaluate(() => {
        globalThis.asked = [];
        const bytes = new Uint8Array(2_000_001).map((_, at) => at % 251);
        return curbcoreSave(new Blob([bytes], { type: "a/b" }), "large");
    });
    const large = await asked("save");
    assert.deepEqual(large.map((piece) => piece[4]), [false, false, true]);
    assert.equal(new Set(large.map((piece) => piece[5])).size, 1, "one file");
    const bytes = large.map((piece) => piece[3]).join("");
    assert.equal(bytes.length, 2_000_001);
    assert.ok([...bytes].every((letter, at) => letter.charCodeAt(0) === at % 251));
    await hand.go("more");
    await hand.tap(text("ui-sync-open"));
    await hand.tap(text("ui-sync-make"));
    await page.waitForFunction(() => globalThis.asked.some(([, name]) => String(name).endsWith(".curbshelf")));

    await hand.go("bench");
    await hand.tap(text("ui-begin-tests"));
    await page.locator("article.step").waitFor();
    await page.locator(".step-nav .main").tap();
    await page.locator(".gate").waitFor();
    const held = await throughGates(page);
    assert.equal((await asked("shake")).length, held, "one push for each item");
    assert.deepEqual((await asked("awake")).at(-1), ["awake", true]);
    assert.deepEqual(hand.errors, []);
    await hand.close();
});
