// The script by which Android's app reads a picked file, by itself in a page: the framework's dialog
// is not asked, and what is sent is what was picked.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { after, before, test } from "node:test";
import { ROOT, browser } from "./phone.js";

let running;
before(async () => { running = await browser(); });
after(async () => { await running?.close(); });

test("a picked file is sent in pieces, and one too long is not read", async () => {
    const page = await running.newPage();
    await page.setContent('<div><input type="file" id="in" multiple></div>');
    await page.evaluate((script) => {
        globalThis.sent = [];
        globalThis.others = 0;
        addEventListener("click", () => { globalThis.others += 1; });
        addEventListener("change", () => { globalThis.others += 1; });
        const AsyncFunction = (async () => {}).constructor;
        const dioxus = { recv: async () => ["in", 500_000], send: (piece) => globalThis.sent.push(piece) };
        new AsyncFunction("dioxus", script)(dioxus);
    }, readFileSync(`${ROOT}assets/file-pick.js`, "utf8"));
    const waits = page.waitForEvent("filechooser");
    await page.locator("#in").click();
    const bytes = Buffer.from(Array.from({ length: 450_000 }, (_, at) => (at * 7) % 251));
    await (await waits).setFiles([
        { name: "a.jpg", mimeType: "image/jpeg", buffer: bytes },
        { name: "b.jpg", mimeType: "image/jpeg", buffer: Buffer.alloc(500_001) },
        { name: "c.jpg", mimeType: "image/jpeg", buffer: Buffer.alloc(0) },
    ]);
    await page.waitForFunction(() => globalThis.sent.filter(([size]) => size !== null).length === 3);
    const { sent, others } = await page.evaluate(() => ({ sent: globalThis.sent, others: globalThis.others }));
    assert.equal(others, 0);
    const ends = sent.map(([size], at) => (size === null ? -1 : at)).filter((at) => at >= 0);
    assert.deepEqual(ends.map((at) => sent[at][0]), [450_000, 500_001, 0]);
    const first = Buffer.concat(sent.slice(0, ends[0]).map(([, piece]) => Buffer.from(piece, "base64")));
    assert.ok(first.equals(bytes));
    assert.equal(ends[1] - ends[0], 1, "no piece of what is too long");
    await page.close();
});
