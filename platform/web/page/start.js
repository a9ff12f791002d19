// Starts the app, and the worker that keeps it for when there is no signal.
import "./camera.js";
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
    // In pieces, so that a large file need not fit into the phone's memory twice. Each is a multiple of
    // three bytes, so that only the last one's base64 is padded.
    const PIECE = 3 << 18;
    let count = 0;
    const base64 = (blob) => new Promise((done, failed) => {
        const reader = new FileReader();
        reader.onload = () => done(reader.result.slice(reader.result.indexOf(",") + 1));
        reader.onerror = () => failed(reader.error);
        reader.readAsDataURL(blob);
    });
    globalThis.curbcoreSave = async (blob, name) => {
        count += 1;
        // A page that is opened anew does not go on with a file of the one before.
        const id = `${performance.timeOrigin}-${count}`;
        let at = 0;
        do {
            const piece = await base64(blob.slice(at, at + PIECE));
            at += PIECE;
            shell.save(id, name, blob.type, piece, at >= blob.size);
        } while (at < blob.size);
    };
} else if ("serviceWorker" in navigator) {
    navigator.serviceWorker.register("worker.js").catch((error) => console.error("not kept for offline:", error));
}
