// A held button has done its work while the finger is still down, and something else may stand there
// by now: letting go is no tap on that.
const nothing = (event) => {
    event.stopPropagation();
    event.preventDefault();
};
const over = () => setTimeout(() => {
    removeEventListener("click", nothing, true);
    for (const end of ["pointerup", "pointercancel", "keyup"]) removeEventListener(end, over, true);
}, 350);
addEventListener("click", nothing, true);
for (const end of ["pointerup", "pointercancel", "keyup"]) addEventListener(end, over, true);
