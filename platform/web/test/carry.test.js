// A shelf goes from the phone to the desktop's program, is changed there, and comes back.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { openLengths, throughGates } from "./job.js";
import { LARGE, ROOT, SMALL, browser, phone } from "./phone.js";
import { part, text } from "./texts.js";

const DESKTOP = process.env.CURBCORE_DESKTOP ?? `${ROOT}target/debug/curbcore`;
let running;
let folder;
before(async () => {
    running = await browser();
    folder = mkdtempSync(join(tmpdir(), "curbcore-carry-"));
});
after(async () => {
    await running?.close();
    rmSync(folder, { recursive: true, force: true });
});

/** The desktop's program on a data folder of its own. */
function desktop(name) {
    return (arguments_, passphrase) => {
        const env = { ...process.env, CURBCORE_DATA: join(folder, name) };
        // Set but empty is refused.
        if (passphrase) env.CURBCORE_PASSPHRASE = passphrase;
        return execFileSync(DESKTOP, arguments_, { env, encoding: "utf8" });
    };
}

async function toCarry(hand) {
    await hand.go("more");
    await hand.tap(text("ui-sync-open"));
    await hand.page.getByRole("heading", { name: text("ui-sync-in") }).waitFor();
}

/** Makes a file on the phone; gives where the download lies. */
async function make(hand, name) {
    const waits = hand.page.waitForEvent("download");
    await hand.tap(text("ui-sync-make"));
    const download = await waits;
    assert.match(download.suggestedFilename(), /\.curbshelf$/);
    const path = join(folder, name);
    await download.saveAs(path);
    await hand.page.getByText(part("ui-sync-made")).waitFor();
    return path;
}

/** Takes a file in on the phone. */
async function take(hand, path) {
    await hand.page.locator("#sync-in").setInputFiles(path);
    await hand.page.getByRole("button", { name: text("ui-sync-take") }).tap();
    await hand.page.getByText(text("ui-sync-taken")).waitFor({ timeout: 60_000 });
}

async function seal(page, phrase) {
    await page.locator("details.seal > summary").tap();
    await page.locator("#passphrase").fill(phrase);
    await page.locator("#passphrase").blur();
}

const renameJob = async (hand, name) => {
    await hand.go("rewind");
    await hand.page.locator("strong.winding").waitFor();
    await hand.go("measure");
    await openLengths(hand.page);
    const stack = hand.page.getByRole("textbox", { name: "Stack" }).first();
    await stack.fill(name);
    await stack.blur();
    // Where tests count, it is asked first.
    const change = hand.page.locator("#asked-change");
    const undo = hand.page.getByRole("button", { name: "Undo: Change Stack" });
    await change.or(undo).first().waitFor();
    if ((await change.count()) > 0) await change.tap();
    await hand.page.getByRole("button", { name: "Undo: Change Stack" }).waitFor();
};

test("from the phone to the desktop, and on to another phone and back", async () => {
    const first = await phone(running, SMALL);
    await first.openDemo();
    // A gate is passed here; it must not be passed anywhere else.
    await first.go("bench");
    await first.tap(text("ui-begin-tests"));
    await first.page.locator("article.step").waitFor();
    const before = await first.page.locator("article.step h2").innerText();
    await first.page.locator(".step-nav .main").tap();
    await first.page.locator(".gate").waitFor();
    assert.ok(await throughGates(first.page) > 0);
    assert.notEqual(await first.page.locator("article.step h2").innerText(), before);

    await toCarry(first);
    const out = await make(first, "phone.curbshelf");
    const bench = desktop("bench");
    assert.match(bench(["import", "--look", out]), /new|records/i);
    bench(["import", out]);
    const back = join(folder, "bench.curbshelf");
    bench(["export", back]);

    // Another phone, with nothing on it: looked into, left, taken in, undone, taken in again.
    const second = await phone(running, LARGE);
    const { page } = second;
    await toCarry(second);
    await page.locator("#sync-in").setInputFiles(back);
    await page.getByText("No gate that was passed on another device counts here").waitFor();
    await page.getByRole("button", { name: text("ui-sync-leave") }).tap();
    await second.go("home");
    assert.equal(await page.locator(".card").count(), 0, "a look keeps nothing");
    await toCarry(second);
    await take(second, back);
    await page.getByRole("button", { name: /^Undo: / }).tap();
    await second.go("home");
    assert.equal(await page.locator(".card").count(), 0, "one undo takes all of it back");
    await toCarry(second);
    await page.reload();
    await page.getByRole("heading", { name: text("ui-sync-in") }).waitFor();
    await take(second, back);
    await second.go("home");
    await page.locator(".card").first().waitFor();
    await page.locator(".card-open").first().tap();
    await second.go("bench");
    // The tests begin anew: no stage, and no gate, came along.
    await second.tap(text("ui-begin-tests"));
    await page.locator("article.step").waitFor();
    assert.equal(await page.locator("article.step h2").innerText(), before);
    await page.locator(".step-nav .main").tap();
    await page.locator(".gate").waitFor();
    assert.equal(await page.locator(".gate .items .confirmed").count(), 0);
    await page.locator(".gate").getByRole("button", { name: text("ui-gate-back") }).tap();

    // Changed there, back on the first: only what is new.
    await renameJob(second, "72.5");
    await toCarry(second);
    const changed = await make(second, "second.curbshelf");
    await take(first, changed);
    await first.go("measure");
    await openLengths(first.page);
    const stack = first.page.getByRole("textbox", { name: "Stack" }).first();
    await stack.waitFor();
    assert.equal(await stack.inputValue(), "72.5");
    await first.page.reload();
    await stack.waitFor();
    assert.equal(await stack.inputValue(), "72.5", "kept over a reload");

    // What is new since then, for the device that is known by now.
    await toCarry(first);
    const known = first.page.locator(".choices button", { hasText: "What is new for" });
    assert.ok(await known.count() > 0);
    await known.first().tap();
    await make(first, "new.curbshelf");

    assert.deepEqual([...first.errors, ...second.errors], []);
    await first.close();
    await second.close();
});

test("sealed by a passphrase, both ways", async () => {
    const hand = await phone(running, SMALL);
    const { page } = hand;
    await hand.openDemo();
    await toCarry(hand);
    await seal(page, "under the bench");
    const waits = page.waitForEvent("download", { timeout: 120_000 });
    await hand.tap(text("ui-sync-make"));
    const path = join(folder, "sealed.curbshelf");
    await (await waits).saveAs(path);
    const sealed = desktop("sealed");
    assert.throws(() => sealed(["import", path]), "without the passphrase it stays shut");
    assert.throws(() => sealed(["import", path], "over the bench"), "and with another one");
    sealed(["import", path], "under the bench");
    const back = join(folder, "sealed-back.curbshelf");
    sealed(["export", back], "under the bench");

    const other = await phone(running, SMALL);
    await toCarry(other);
    await other.page.locator("#sync-in").setInputFiles(back);
    await other.page.getByText(/passphrase/i).first().waitFor({ timeout: 60_000 });
    assert.equal(await other.page.getByRole("button", { name: text("ui-sync-take") }).count(), 0);
    await seal(other.page, "under the bench");
    await other.page.locator("#sync-in").setInputFiles([]);
    await other.page.locator("#sync-in").setInputFiles(back);
    await other.page.getByRole("button", { name: text("ui-sync-take") }).tap({ timeout: 120_000 });
    await other.page.getByText(text("ui-sync-taken")).waitFor({ timeout: 120_000 });
    assert.deepEqual([...hand.errors, ...other.errors], []);
    await hand.close();
    await other.close();
});

test("a file that is none, and one cut off, change nothing", async () => {
    const hand = await phone(running, SMALL);
    await toCarry(hand);
    for (const buffer of [Buffer.from("no shelf"), Buffer.from("PK\x03\x04 cut off"), Buffer.alloc(0)]) {
        await hand.page.locator("#sync-in").setInputFiles({ name: "a.curbshelf", mimeType: "application/zip", buffer });
        await hand.page.locator("p.told").waitFor({ timeout: 30_000 });
        assert.equal(await hand.page.getByRole("button", { name: text("ui-sync-take") }).count(), 0);
    }
    assert.deepEqual(hand.errors, []);
    await hand.close();
});

test("where the browser shares files, a made file can be passed on", async () => {
    const hand = await phone(running, SMALL);
    const { page } = hand;
    await page.evaluate(() => {
        navigator.canShare = ({ files }) => files?.length === 1;
        navigator.share = async ({ files }) => { globalThis.shared = [files[0].name, files[0].size]; };
    });
    await hand.openDemo();
    await toCarry(hand);
    const made = await make(hand, "shared.curbshelf");
    await page.getByRole("button", { name: text("ui-sync-pass-on") }).tap();
    const [name, size] = await page.evaluate(() => globalThis.shared);
    assert.match(name, /\.curbshelf$/);
    assert.ok(size > 1000, `${size} bytes of ${made}`);
    assert.deepEqual(hand.errors, []);
    await hand.close();
});
