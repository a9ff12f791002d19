// The phone's back button and its screen. `dioxus` is the app's end of the wire; what arrives there
// is the word of a screen.
const state = { awake: false, lock: null };

async function keepAwake() {
    // The small app that carries the page on Android (platform/android/shell).
    globalThis.CurbcoreShell?.awake(state.awake);
    if (!navigator.wakeLock) return;
    if (!state.awake) {
        const lock = state.lock;
        state.lock = null;
        await lock?.release();
    } else if (!state.lock && document.visibilityState === "visible") {
        try {
            state.lock = await navigator.wakeLock.request("screen");
            // The phone takes it back when the app is left.
            state.lock.addEventListener("release", () => { state.lock = null; });
        } catch {
            // A phone that saves its battery may say no.
        }
    }
}

globalThis.curbcore = {
    shown(word, awake) {
        if (history.state?.screen !== word) {
            // What the page began with is not ours and is no step to go back to.
            const step = history.state?.screen ? "pushState" : "replaceState";
            history[step]({ screen: word }, "");
        }
        state.awake = awake;
        keepAwake();
    },
};
if (globalThis.curbcoreFirst) curbcore.shown(...globalThis.curbcoreFirst);
addEventListener("popstate", (event) => {
    if (event.state?.screen) dioxus.send(event.state.screen);
});
document.addEventListener("visibilitychange", keepAwake);
// The wire stays open as long as this runs.
await new Promise(() => {});
