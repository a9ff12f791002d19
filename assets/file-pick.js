// Hands what a file input picked to the app in pieces. `dioxus` is the app's end of the wire: it
// tells the input's id and the most bytes to read; it gets [null, piece] in base64, and [length, ""]
// at the end of each file, of one too long without a piece before.
const PIECE = 3 << 16;
const [id, most] = await dioxus.recv();
const input = document.getElementById(id);

function base64(bytes) {
    let text = "";
    for (let at = 0; at < bytes.length; at += 0x2000) text += String.fromCharCode(...bytes.subarray(at, at + 0x2000));
    return btoa(text);
}

if (input) {
    // The framework would open a dialog that a phone does not have.
    input.addEventListener("click", (event) => event.stopPropagation());
    input.addEventListener("change", async (event) => {
        event.stopPropagation();
        const files = [...input.files];
        for (const file of files) {
            for (let at = 0; at < file.size && file.size <= most; at += PIECE) {
                const bytes = new Uint8Array(await file.slice(at, at + PIECE).arrayBuffer());
                dioxus.send([null, base64(bytes)]);
            }
            dioxus.send([file.size, ""]);
        }
        // The same file may be picked again.
        input.value = "";
    });
}
// The wire stays open as long as the input is there.
await new Promise(() => {});
