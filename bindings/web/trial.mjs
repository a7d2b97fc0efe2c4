// SPDX-License-Identifier: MIT
// Changes that are tried: the text that they make, and their fields.
import { amount } from "./field.mjs";
import { get, given, set, split } from "./file.mjs";
import { apart, together } from "./value.mjs";
import { safe, title } from "./words.mjs";

const AXLE = ["tyre.marking", "tyre.rollout", "disc.pistons", "disc.effective_radius",
  "disc.rotor_diameter", "drum.cylinder_diameter", "drum.diameter"];
const TRIED = [...AXLE.map((name) => `front.${name}`), ...AXLE.map((name) => `rear.${name}`),
  "master.bore"];

// What was measured on the old tyre is nothing of the new one.
const OF_TYRE = ["rollout", "rolling_radius", "overall_diameter"];

export const tryable = (text) => TRIED.filter((path) => given(get(text, path)));

// The text with some lines set, as a person would guess them: no tolerance, no origin.
export function tried(text, changes) {
  let other = text;
  for (const [path, value] of changes) {
    const [section, name] = split(path);
    if (name === "marking")
      for (const old of OF_TYRE)
        if (!changes.has(`${section}.${old}`) && get(text, `${section}.${old}`))
          other = set(other, `${section}.${old}`, "");
    other = set(other, path, value);
  }
  return other;
}

const triedId = (path) => `try-${path.replaceAll(".", "-")}`;

function triedField(path, row, value, unit) {
  const parts = apart(value);
  const input = row.kind === "text"
    ? `<input id="${triedId(path)}" data-part="number" autocomplete="off"
      value="${safe(parts.number)}">`
    : amount(row, triedId(path), { ...parts, unit: parts.unit || unit });
  return `<div class="tried" data-try="${path}"><label for="${triedId(path)}">${title(path)}</label>
    ${input}</div>`;
}

// The fields; `rowOf` gives the row of a line, `unitOf` its unit.
export function trials(text, rowOf, unitOf) {
  return tryable(text)
    .map((path) => triedField(path, rowOf(path), get(text, path), unitOf(rowOf(path)))).join("");
}

// A size alone.
const bare = (number, unit) => together({ number, unit, tolerance: "", origin: "" });

// What differs from the text, by line.
export function changesOf(text, nodes) {
  const found = new Map();
  for (const node of nodes) {
    const part = (name) => node.querySelector(`[data-part=${name}]`)?.value ?? "";
    const value = bare(part("number"), part("unit"));
    const { number, unit } = apart(get(text, node.dataset.try));
    if (value !== bare(number, unit)) found.set(node.dataset.try, value);
  }
  return found;
}
