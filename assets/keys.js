// The keys of a desktop. `dioxus` is the app's end of the wire; what arrives there is the word of a key.
const inField = () => document.activeElement?.matches("textarea, select, input:not([type=checkbox]):not([type=radio]):not([type=file])");

function wordOf(event) {
    const key = event.key.toLowerCase();
    if (event.altKey) return null;
    if (event.ctrlKey || event.metaKey) {
        if (key === "f") return "find";
        if (key === "p") return "print";
        // What is typed has an undo of its own.
        if (inField()) return null;
        if (key === "z") return event.shiftKey ? "redo" : "undo";
        return key === "y" ? "redo" : null;
    }
    if (key === "escape") return "close";
    if (inField()) return null;
    if (key === "?") return "keys";
    return /^[1-6]$/.test(key) ? key : null;
}

addEventListener("keydown", (event) => {
    // A gate is passed item by item, with the hand that holds.
    if (document.querySelector(".gate")) return;
    const turn = document.querySelector(".count-turn");
    if (turn && event.key === " " && !event.ctrlKey && !inField()) {
        // Where another button has the focus, the key is that button's. A key held down is one turn.
        const other = document.activeElement?.matches("button, summary") && document.activeElement !== turn;
        if (other) return;
        event.preventDefault();
        if (!event.repeat) turn.click();
        return;
    }
    const word = wordOf(event);
    if (!word) return;
    if (word !== "close") event.preventDefault();
    if (!event.repeat) dioxus.send(word);
});
// A button that has the focus is pressed when the key is let go: the turn is counted by then.
addEventListener("keyup", (event) => {
    if (event.key === " " && document.activeElement?.matches(".count-turn")) event.preventDefault();
});
// The wire stays open as long as this runs.
await new Promise(() => {});
