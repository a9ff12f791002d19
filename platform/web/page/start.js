// Starts the app, and the worker that keeps it for when there is no signal.
import init from "./curbcore-web.js";

const wait = document.getElementById("wait");
new MutationObserver((_, watch) => {
    if (document.querySelector(".app")) {
        wait?.remove();
        performance.mark("curbcore-shown");
        watch.disconnect();
    }
}).observe(document.getElementById("main"), { childList: true });

init({ module_or_path: new URL("curbcore-web_bg.wasm", import.meta.url) }).catch((error) => {
    console.error(error);
    if (wait) wait.textContent = `Curbcore does not start in this browser (${error}). Bring the browser up to date.`;
});

// The small app that carries this page on Android (platform/android/shell) has the whole of it, and
// saves files by the phone's own dialog.
const shell = globalThis.CurbcoreShell;
if (shell) {
    globalThis.curbcoreSave = (blob, name) => {
        const reader = new FileReader();
        reader.onload = () => shell.save(name, blob.type, reader.result.slice(reader.result.indexOf(",") + 1));
        reader.readAsDataURL(blob);
    };
} else if ("serviceWorker" in navigator) {
    navigator.serviceWorker.register("worker.js").catch((error) => console.error("not kept for offline:", error));
}
