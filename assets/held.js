// A held button has done its work while the finger is still down, and something else may stand there
// by now: letting go is no tap on that. The next press is one again.
const nothing = (event) => {
    event.stopPropagation();
    event.preventDefault();
};
const ends = ["pointerup", "pointercancel", "keyup"];
const off = () => {
    removeEventListener("click", nothing, true);
    removeEventListener("pointerdown", off, true);
    for (const end of ends) removeEventListener(end, soon, true);
};
// The click of a release comes right after it.
const soon = () => setTimeout(off, 350);
addEventListener("click", nothing, true);
addEventListener("pointerdown", off, true);
for (const end of ends) addEventListener(end, soon, true);
