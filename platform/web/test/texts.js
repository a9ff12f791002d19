// What the screens say, by the ids of the texts (assets/text/en): a test that looks a control up by its
// words goes on working when the words change.
import { readFileSync, readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";

const FOLDER = fileURLToPath(new URL("../../../assets/text/en/", import.meta.url));
const texts = new Map();
for (const file of readdirSync(FOLDER).filter((name) => name.endsWith(".ftl"))) {
    for (const [, id, value] of readFileSync(FOLDER + file, "utf8").matchAll(/^([a-z][\w-]*) = (.+)$/gm)) texts.set(id, value);
}

/** A text as a pattern of its whole; what the app fills in may be anything. */
export const text = (id) => new RegExp(`^\\s*${part(id).source}\\s*$`);

/** The same as a pattern of what a name begins with: a door's goes on with what it leads to. */
export const begins = (id) => new RegExp(`^\\s*${part(id).source}`);

/** The same as a pattern of a part of what is shown. */
export function part(id) {
    const value = texts.get(id);
    if (value === undefined) throw new Error(`there is no text ${id}`);
    const parts = value.split(/\{[^}]*\}/).map((part) => part.replace(/[.*+?^${}()|[\]\\]/g, "\\$&"));
    return new RegExp(parts.join(".*"));
}
