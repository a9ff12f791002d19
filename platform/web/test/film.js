// A camera for Chromium: a film of the renderer's pictures (tests/reference/photo/live).
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { ROOT } from "./phone.js";

/**
 * Writes a film of 30 frames a second, as a file of JPEGs one after the other, into a folder; it begins anew at its
 * end. Each part is a picture's name and how many seconds it is shown.
 */
export function film(folder, name, parts) {
    const file = join(folder, `${name}.mjpeg`);
    const picture = (of) => readFileSync(`${ROOT}tests/reference/photo/live/${of}.jpg`);
    writeFileSync(file, Buffer.concat(parts.flatMap(([of, seconds]) => Array(Math.round(30 * seconds)).fill(picture(of)))));
    return file;
}

/** The browser's switches for a camera that shows this film; `answer` is "=deny" where the person refuses it. */
export const camera = (file, answer = "") => [
    "--use-fake-device-for-media-stream", `--use-fake-ui-for-media-stream${answer}`, `--use-file-for-fake-video-capture=${file}`,
];
