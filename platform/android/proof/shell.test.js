// What the package's own code does when the phone, the person or the page asks: each by itself.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import { setTimeout as pause } from "node:timers/promises";
import { ROOT } from "../../web/test/phone.js";
import { text } from "../../web/test/texts.js";
import { HOME, PROGRAM, newPhone, open } from "./phone.js";

/** For what the page's own screens do in it. */
const screens = { skip: PROGRAM ? false : "the page's program is not in this package" };

async function onPhone(work) {
    const phone = newPhone();
    const hand = await open(phone);
    try {
        await work(hand, phone);
        assert.deepEqual(hand.refused, []);
        assert.deepEqual(hand.errors, []);
        assert.deepEqual(hand.foreign, []);
    } finally {
        await hand.close();
        phone.throwAway();
    }
}

test("the page comes out of the package, and nothing else comes at all", () => onPhone(async (hand) => {
    assert.deepEqual((await hand.notes()).slice(0, 5), ["scripts true", "storage true", "files by address false", "show the web view", `load ${HOME}`]);
    assert.ok(hand.answered.length >= 4);
    assert.deepEqual(hand.answered.filter(([, status]) => status !== 200), []);
    const ask = async (url) => (await hand.code.ask("/request", url)).headers;
    for (const [file, kind] of [["start.js", "text/javascript"], ["page.css", "text/css"], ["curbcore-web_bg.wasm", "application/wasm"]]) {
        if (PROGRAM || !file.endsWith("wasm")) assert.equal((await ask(HOME + file)).get("x-kind"), kind);
    }
    for (const url of [`${HOME}nothing.js`, `${HOME}../AndroidManifest.xml`, "https://example.org/", "http://127.0.0.1/", "https://curbcore.localhost.example.org/index.html"]) {
        assert.equal((await ask(url)).get("x-status"), "404", url);
    }
}));

test("only save, awake and shake are in the page's reach", () => onPhone(async (hand) => {
    assert.deepEqual(process.env.OFFERED.split(" ").sort(), ["awake", "save", "shake"]);
    await assert.rejects(hand.code.ask("/call?getClass"), { status: 404 });
    await hand.page.evaluate(() => CurbcoreShell.awake(true));
    await hand.asked(/^screen on$/);
    await hand.page.evaluate(() => CurbcoreShell.shake());
    // HapticFeedbackConstants.LONG_PRESS
    await hand.asked(/^push 0$/);
}));

test("a file is saved where the person says, one after the other, whole", () => onPhone(async (hand) => {
    const save = (name, size) => hand.page.evaluate(([name, size]) => {
        const bytes = new Uint8Array(size).map((_, at) => at % 251);
        return curbcoreSave(new Blob([bytes], { type: "application/octet-stream" }), name);
    }, [name, size]);
    const whole = (size) => Buffer.from(new Uint8Array(size).map((_, at) => at % 251));
    await save("first", 2_000_001);
    await save("second", 5);
    await hand.asked(/^start 2 android.intent.action.CREATE_DOCUMENT application\/octet-stream android.intent.category.OPENABLE first$/);
    assert.ok(!(await hand.notes()).some((note) => note.endsWith(" second")), "one dialog at a time");

    // A longer file that stood there leaves nothing behind.
    await hand.set("content://documents/first", "x".repeat(3_000_000));
    await hand.saveAs("content://documents/first");
    await hand.asked(/^say Saved: first$/);
    assert.ok((await hand.document("content://documents/first")).equals(whole(2_000_001)));

    // The second dialog is closed: nothing is written.
    await hand.asked(/ second$/);
    await hand.closeSave();
    assert.ok(!(await hand.notes()).some((note) => /^say .*second/.test(note)));

    // No space left: the person reads so, and no half file stays.
    await save("third", 2_000);
    await hand.asked(/ third$/);
    await hand.set("full", "true");
    await hand.saveAs("content://documents/third");
    await hand.asked(/^say Not saved: third \(No space left on device\)\. Free some space/);
    await hand.asked(/^remove content:\/\/documents\/third$/);
    await assert.rejects(hand.document("content://documents/third"), { status: 404 });
    await hand.set("full", "false");

    // A phone without a save dialog.
    await hand.set("nobody", "true");
    await save("fourth", 3);
    await hand.asked(/^say Not saved: fourth\. This phone has no app that saves files\.$/);
    await hand.set("nobody", "false");
    await save("fifth", 3);
    await hand.asked(/ fifth$/);
    await hand.saveAs("content://documents/fifth");
    await hand.asked(/^say Saved: fifth$/);
}));

test("the phone ends the app while the save dialog is open: the file is saved all the same", async () => {
    const phone = newPhone();
    const hand = await open(phone);
    await hand.page.evaluate(() => curbcoreSave(new Blob(["kept"], { type: "a/b" }), "kept"));
    await hand.asked(/ kept$/);
    // Android asks the app what to remember, makes it anew, and hands the dialog's answer to that.
    await hand.life("remember");
    await hand.life("create");
    await hand.saveAs("content://documents/kept");
    await hand.asked(/^say Saved: kept$/);
    assert.equal(String(await hand.document("content://documents/kept")), "kept");
    await hand.close();
    phone.throwAway();
});

test("the camera: only for the package's own page, only with the person's word", () => onPhone(async (hand) => {
    const VIDEO = "android.webkit.resource.VIDEO_CAPTURE";
    const asks = async (...words) => {
        const before = (await hand.notes()).length;
        await hand.code.ask("/permission", words.join(" "));
        return (await hand.notes()).slice(before);
    };
    const says = async (answer) => {
        const before = (await hand.notes()).length;
        await hand.code.ask("/allow", answer);
        return (await hand.notes()).slice(before);
    };
    await hand.set("allowed", "false");
    // The phone asks the person first, once for all that wait.
    assert.deepEqual(await asks(HOME, "VIDEO_CAPTURE"), ["ask for android.permission.CAMERA"]);
    assert.deepEqual(await asks(HOME, "VIDEO_CAPTURE"), []);
    assert.deepEqual(await says("no"), ["the page gets nothing", "the page gets nothing"]);
    assert.deepEqual(await asks(HOME, "VIDEO_CAPTURE"), ["ask for android.permission.CAMERA"]);
    assert.deepEqual(await says("closed"), ["the page gets nothing"]);
    assert.deepEqual(await asks(HOME, "VIDEO_CAPTURE"), ["ask for android.permission.CAMERA"]);
    assert.deepEqual(await says("yes"), [`the page gets ${VIDEO}`]);
    assert.deepEqual(await asks(HOME, "VIDEO_CAPTURE"), [`the page gets ${VIDEO}`]);
    // Nothing but the camera, and no other page.
    for (const words of [
        [HOME, "AUDIO_CAPTURE"], [HOME, "VIDEO_CAPTURE", "AUDIO_CAPTURE"], [HOME], ["https://example.org/", "VIDEO_CAPTURE"],
        ["http://curbcore.localhost/", "VIDEO_CAPTURE"], ["https://curbcore.localhost.example.org/", "VIDEO_CAPTURE"],
    ]) {
        assert.deepEqual(await asks(...words), ["the page gets nothing"], words.join(" "));
    }
}));

test("a photo's dialog: with the camera app where the person allows the camera, else with files alone", () => onPhone(async (hand) => {
    await hand.set("allowed", "false");
    const asked = async (answer) => {
        const before = (await hand.notes()).length;
        await hand.code.ask("/choose", "camera");
        await hand.code.ask("/allow", answer);
        return (await hand.notes()).slice(before).map((note) => note.split(" ").slice(0, 3).join(" "));
    };
    const expected = ["ask for android.permission.CAMERA", "start 1 android.intent.action.CHOOSER"];
    assert.deepEqual(await asked("no"), expected);
    await assert.rejects(hand.code.ask("/camera", "photo"), { status: 500 });
    assert.deepEqual(await asked("yes"), expected);
    await hand.photograph("photo");
    assert.equal(await hand.code.words("/picked"), "content://io.curbcore.page.photo/photo.jpg");
    // A dialog for files asks for no camera.
    await hand.set("allowed", "false");
    await hand.code.ask("/choose", "file");
    assert.match((await hand.notes()).at(-1), /^start 1 /);
}));

test("a photo by the camera app, a dialog closed without one, a phone without a dialog", screens, () => onPhone(async (hand) => {
    const { page } = hand;
    await hand.openDemo();
    await hand.go("measure");
    await page.getByRole("button", { name: text("ui-photo-title") }).tap();
    const tap = () => page.locator("#core-photo").click();

    // The camera is refused, or the dialog is closed: the page waits for nothing, and asks again.
    assert.equal(await hand.choose(tap, hand.closeDialog), "none");
    assert.match(await hand.asked(/^start 1 /), /^start 1 android.intent.action.CHOOSER/);
    await hand.set("nobody", "true");
    assert.equal(await hand.choose(tap, async () => {}), "none");
    await hand.set("nobody", "false");
    assert.equal(await page.locator(".photo-stage").count(), 0);

    // The camera app writes its photo into the one file that it may write to.
    const photo = readFileSync(`${ROOT}tests/reference/photo/coin.png`);
    assert.equal(await hand.choose(tap, () => hand.photograph(photo)), "content://io.curbcore.page.photo/photo.jpg");
    await page.locator(".photo-stage").waitFor({ timeout: 60_000 });

    // An old photo is not taken for a new one.
    assert.equal(await hand.choose(tap, () => hand.code.ask("/answer", "1 -1")), "none");
}));

test("back walks the screens; what draws the page may end", screens, () => onPhone(async (hand) => {
    await hand.openDemo();
    await hand.go("measure");
    await hand.page.locator('[data-length="core.tongue_mm"]').waitFor();
    assert.deepEqual(await hand.back(), ["back"]);
    await hand.page.locator(".answer-card .winding").waitFor();
    assert.equal(await hand.life("memory taken"), "true");
    await hand.asked(/^recreate$/);
    assert.equal(await hand.life("fault"), "true");
    await hand.asked(/^finish$/);
    await hand.life("destroy");
    await hand.asked(/^view destroyed$/);
}));

test("back on the first screen leaves the app; without a web view a text says what to do", () => onPhone(async (hand) => {
    assert.deepEqual(await hand.back(), ["leave"]);
    await hand.set("noWebView", "true");
    await hand.life("create");
    await hand.asked(/^show Curbcore needs Android System WebView/);
    await hand.life("back");
    await hand.life("destroy");
    await pause(100);
}));
