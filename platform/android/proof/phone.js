// A phone without Android: the package's own code on this machine's Java, with stand-ins for Android's
// classes (device/, standins/), and Chromium as its web view. Every request of the page is answered
// by the package's code from the package, and what the page asks of the app goes to the package's code.
import { spawn } from "node:child_process";
import { mkdtempSync, readlinkSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after } from "node:test";
import { setTimeout as pause } from "node:timers/promises";
import { chromium } from "../../web/test/node_modules/playwright-core/index.mjs";
import { SMALL, handOn } from "../../web/test/phone.js";

export const HOME = "https://curbcore.localhost/";
const OK = -1;
const CANCELLED = 0;
const PICK = 1;
const SAVE = 2;

/** The package, what runs it, and the methods that it offers to its page: from prove.sh. */
const { APK, TEXTS, CLASSES, OFFERED } = process.env;
/** Whether the page's program is in the package, or an empty one. */
export const PROGRAM = process.env.PROGRAM !== "no";

/** Ends what is still running, by app; empty unless a test failed halfway. */
const running = new Set();
after(async () => {
    for (const end of running) await end();
});

/** A phone with nothing on it but this app. */
export function newPhone() {
    const folder = mkdtempSync(join(tmpdir(), "curbcore-phone-"));
    return { folder, throwAway: () => rmSync(folder, { recursive: true, force: true }) };
}

/** The device's own half: the package's code. */
async function device(folder) {
    const java = spawn("java", [
        "-Xverify:all", "-cp", CLASSES, "device.Device", APK, TEXTS, folder, ...OFFERED.split(" "),
    ], { stdio: ["pipe", "pipe", "inherit"] });
    const port = await new Promise((done, failed) => {
        java.stdout.on("data", (line) => done(/port (\d+)/.exec(line)[1]));
        java.on("exit", (code) => failed(new Error(`Java ended with ${code}`)));
    });
    const ask = async (path, body = "") => {
        const response = await fetch(`http://127.0.0.1:${port}${path}`, { method: "POST", body });
        if (!response.ok) throw Object.assign(new Error(`${path}: ${await response.text()}`), { status: response.status });
        return response;
    };
    return {
        ask,
        words: async (path, body) => (await ask(path, body)).text(),
        end: () => new Promise((done) => {
            if (java.exitCode !== null) done();
            java.on("exit", done);
            java.stdin.end();
        }),
    };
}

/** Opens the app on a phone; gives the hand on it. `cacheDir` stays with the phone. */
export async function open(phone) {
    const code = await device(phone.folder);
    let context;
    const close = async () => {
        running.delete(close);
        await context?.close().catch(() => {});
        await code.end();
    };
    running.add(close);
    const profile = join(phone.folder, "web-view");
    context = await chromium.launchPersistentContext(profile, {
        executablePath: process.env.CURBCORE_CHROMIUM ?? "/usr/bin/chromium",
        args: [
            "--headless=new", "--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update",
            "--disable-sync",
        ],
        viewport: SMALL, deviceScaleFactor: 3, isMobile: true, hasTouch: true,
    });
    const answered = [];
    await context.route("**/*", async (route) => {
        const url = route.request().url();
        const response = await code.ask("/request", url);
        const status = Number(response.headers.get("x-status"));
        answered.push([url, status]);
        await route.fulfill({ status, contentType: response.headers.get("x-kind"), body: Buffer.from(await response.arrayBuffer()) });
    });
    // What the page says to the app, in its turn.
    let turn = Promise.resolve();
    const refused = [];
    await context.exposeFunction("curbcoreCall", (method, values) => {
        turn = turn.then(() => code.ask(`/call?${method}`, values.join("\u001f"))).catch((error) => refused.push(String(error)));
    });
    await context.addInitScript((offered) => {
        globalThis.CurbcoreShell = Object.fromEntries(
            offered.map((method) => [method, (...values) => { globalThis.curbcoreCall(method, values.map(String)); }]),
        );
    }, OFFERED.split(" "));
    await code.ask("/life", "create");
    const page = context.pages()[0] ?? (await context.newPage());
    const hand = handOn(page, HOME);
    await page.goto(HOME);
    if (PROGRAM) await page.locator(".rail").waitFor();
    else await page.waitForFunction(() => globalThis.curbcoreSave);

    const notes = async () => (await code.words("/notes")).split("\n");
    /** Until the app has asked the phone for what the pattern says; gives the newest such line. */
    const asked = async (pattern) => {
        for (let left = 100; left > 0; left -= 1) {
            const line = (await notes()).findLast((note) => pattern.test(note));
            if (line) return line;
            await pause(100);
        }
        throw new Error(`nothing like ${pattern} in\n${(await notes()).join("\n")}`);
    };
    /** A file input is tapped; `then` is what the person does in the dialog. Gives the addresses the page gets. */
    const choose = async (tap, then) => {
        const waits = page.waitForEvent("filechooser");
        await tap();
        const chooser = await waits;
        const capture = await chooser.element().getAttribute("capture");
        await code.ask("/choose", capture === null ? "file" : "camera");
        await then();
        const picked = await code.words("/picked");
        if (picked === "nothing yet") throw new Error("the page got no answer");
        if (picked === "none") return picked;
        const buffer = Buffer.from(await (await code.ask(`/content?${picked}`)).arrayBuffer());
        await chooser.setFiles({ name: picked.split("/").at(-1), mimeType: "application/octet-stream", buffer });
        return picked;
    };
    return {
        ...hand, context, code, answered, refused, notes, asked, choose,
        /** In the open file dialog: the camera app takes this photo; the person closes the dialog; picks a document. */
        photograph: async (photo) => {
            await code.ask("/camera", photo);
            await code.ask("/answer", `${PICK} ${OK}`);
        },
        closeDialog: () => code.ask("/answer", `${PICK} ${CANCELLED}`),
        pickDocument: (address) => code.ask("/answer", `${PICK} ${OK} ${address}`),
        /** In the open save dialog: the person chooses a place, or closes the dialog. */
        saveAs: (address) => code.ask("/answer", `${SAVE} ${OK} ${address}`),
        closeSave: () => code.ask("/answer", `${SAVE} ${CANCELLED}`),
        document: async (address) => Buffer.from(await (await code.ask(`/content?${address}`)).arrayBuffer()),
        set: (what, value) => code.ask(`/set?${what}`, value),
        life: (what) => code.words("/life", what),
        /** The phone's back button. */
        back: async () => {
            const wire = await context.newCDPSession(page);
            const { currentIndex, entries } = await wire.send("Page.getNavigationHistory");
            await wire.detach();
            const before = (await notes()).length;
            // Before the app's first page this browser has an empty one, which a web view has not.
            await code.ask("/set?canGoBack", String(entries[currentIndex - 1]?.url.startsWith(HOME) ?? false));
            await code.ask("/life", "back");
            const said = (await notes()).slice(before);
            if (said.includes("back")) await page.goBack();
            return said;
        },
        /** The phone ends the app as it stands. */
        kill: async () => {
            // The browser that this walk started names its process in its folder.
            const started = Number(readlinkSync(join(profile, "SingletonLock")).split("-").at(-1));
            process.kill(started, "SIGKILL");
            await close();
        },
        close,
    };
}
