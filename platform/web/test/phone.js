// A phone: Debian's Chromium with a touch screen of a phone's size, and what a hand does on it.
import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { chromium } from "playwright-core";
import { serve } from "./server.js";
import { text } from "./texts.js";

export const ROOT = fileURLToPath(new URL("../../../", import.meta.url));
const PAGE = `${ROOT}target/web/page`;
export const SMALL = { width: 360, height: 800 };
const STAGES = ["size-up", "teardown", "measure", "rewind", "wind", "bench"];
export const LARGE = { width: 412, height: 915 };

/** A browser with nothing but this app, and these switches; `close` ends it. */
export async function browser(switches = []) {
    return chromium.launch({
        executablePath: process.env.CURBCORE_CHROMIUM ?? "/usr/bin/chromium",
        args: [
            "--headless=new", "--no-sandbox", "--disable-gpu", "--disable-background-networking",
            "--disable-component-update", "--disable-sync", ...switches,
        ],
    });
}

/** A phone with the app open on its shelf, and the server that handed it out; `first` runs in the page before it. */
export async function phone(running, size, options = {}, first = () => {}) {
    if (!existsSync(`${PAGE}/index.html`)) throw new Error("platform/web/build.sh first");
    const server = await serve(PAGE);
    const context = await running.newContext({
        viewport: size, deviceScaleFactor: 3, isMobile: true, hasTouch: true, acceptDownloads: true, ...options,
    });
    await context.addInitScript(first);
    const page = await context.newPage();
    const home = server.address;
    const hand = handOn(page, home);
    await page.goto(home);
    await page.getByRole("heading", { name: "Curbcore" }).waitFor();
    return {
        ...hand, context, server, home,
        /** Until the worker has the whole app. */
        keptForOffline: () => page.evaluate(async () => {
            await navigator.serviceWorker.ready;
        }),
        close: async () => {
            await context.close();
            await server.stop();
        },
    };
}

/** What a hand does on a page, and what the page does that it should not: errors, requests to elsewhere than `home`. */
export function handOn(page, home) {
    const errors = [];
    page.on("pageerror", (error) => errors.push(String(error)));
    page.on("console", (line) => line.type() === "error" && errors.push(line.text()));
    const foreign = [];
    page.on("request", (request) => {
        if (!request.url().startsWith(home) && !/^(data:|blob:|about:)/.test(request.url())) foreign.push(request.url());
    });
    return {
        page, errors, foreign,
        tap: (name) => page.getByRole("button", { name }).first().tap(),
        /** To a place of the bar or a stage of the job, by its word: "home", "more", "measure". */
        go: (word) => go(page, word),
        /** The demo's job, at its windings. */
        openDemo: async () => {
            if ((await page.getByRole("button", { name: text("ui-open-demo") }).count()) === 0) await go(page, "more");
            await page.getByRole("button", { name: text("ui-open-demo") }).first().tap();
            await page.getByRole("heading", { name: text("way-title") }).waitFor();
            await go(page, "rewind");
            await page.locator(".answer-card .winding").waitFor();
        },
        /** The word of the screen: of a stage of the job, else of a place of the bar. */
        here: async () => {
            const stage = page.locator(".path [aria-current=step]");
            const here = (await stage.count()) > 0 ? stage : page.locator(".rail [aria-current=page]");
            return (await here.first().getAttribute("id")).replace(/^(stage|place)-/, "");
        },
    };
}

/** Taps a place of the bar; for a stage of the job first what is in hand, where the stages are not in sight. */
async function go(page, word) {
    const stage = page.locator(`#stage-${word}`);
    if (STAGES.includes(word) && (await stage.count()) === 0) await page.locator("#place-donor").tap();
    const there = STAGES.includes(word) ? stage.or(page.locator(`#way-${word}`)) : page.locator(`#place-${word}`);
    await there.first().tap();
}

/** Presses a button for as long as it wants to be held. */
export async function hold(page, locator) {
    await locator.scrollIntoViewIfNeeded();
    const box = await locator.boundingBox();
    const wire = await page.context().newCDPSession(page);
    const at = [{ x: box.x + box.width / 2, y: box.y + box.height / 2 }];
    await wire.send("Input.dispatchTouchEvent", { type: "touchStart", touchPoints: at });
    await page.waitForTimeout(1500);
    await wire.send("Input.dispatchTouchEvent", { type: "touchEnd", touchPoints: [] });
    await wire.detach();
}
