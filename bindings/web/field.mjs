// SPDX-License-Identifier: MIT
// One line of the file as a field: number, unit, tolerance, where it came from.
import { ORIGINS, TOLERANCES, apart, together } from "./value.mjs";
import { safe, title } from "./words.mjs";

export const idOf = (path) => `line-${path.replaceAll(".", "-")}`;

const options = (words, chosen) =>
  words.map((word) => `<option${word === chosen ? " selected" : ""}>${safe(word)}</option>`)
    .join("");

// One tap says it, another takes it back.
function taps(kind, words, chosen, legend, sign = "") {
  const shown = chosen === "" || words.includes(chosen) ? words : [...words, chosen];
  return `<div class="taps" role="group" aria-label="${legend}"><span aria-hidden="true">${
    legend}</span>${shown.map((word) => `<button type="button" data-part="${kind}" value="${
    safe(word)}" aria-pressed="${word === chosen}">${sign}${safe(word)}</button>`).join("")}</div>`;
}

// What stands on a plate or in papers is as sure as it is printed.
function sure(row, { number, tolerance, origin }) {
  const within = row.means === "papers" && tolerance === "" ? ""
    : taps("tolerance", TOLERANCES, tolerance, "Sure within", "± ");
  return `<div class="sure"${number === "" ? " hidden" : ""}>${within}${
    taps("origin", ORIGINS, origin, "It is")}</div>`;
}

const unitsOf = (row, unit) =>
  [...new Set([unit, row.si, row.us, ...row.units.split(" ")].filter((name) => name))];

const choices = (row, word) => {
  const words = row.choices.split(" ");
  return options(words.includes(word) ? words : ["", ...words], word);
};

// Number and unit of a line, for the form or for a change that is tried.
export function amount(row, id, { number, unit }, help = "") {
  const units = unitsOf(row, unit);
  const pad = unit === "in" || row.kind === "pistons" ? "text" : "decimal";
  return `<span class="amount"><input id="${id}" data-part="number" autocomplete="off"
    inputmode="${pad}" value="${safe(number)}"${
    row.kind === "pistons" ? ' placeholder="2 x 48"' : ""} ${help}>${
    units.length ? `<select data-part="unit" aria-label="Unit of ${title(row.name)}">${
      options(units, unit)}</select>` : ""}</span>`;
}

function entry(row, path, value, unit) {
  const id = idOf(path);
  const help = `aria-describedby="${id}-help ${id}-said"`;
  if (row.kind === "choice")
    return `<select id="${id}" data-part="whole" ${help}>${
      choices(row, apart(value).number)}</select>`;
  if (row.kind !== "real" && row.kind !== "pistons")
    return `<input id="${id}" data-part="whole" autocomplete="off" value="${safe(value)}" ${help}>`;
  const parts = apart(value);
  return amount(row, id, { ...parts, unit: parts.unit || unit }, help) + sure(row, parts);
}

// `value` as the file has it, "" for none; `unit` the one used last for such numbers.
export function field(row, path, value, unit) {
  const id = idOf(path);
  return `<div class="field" data-path="${path}" data-kind="${row.kind}">
    <label for="${id}">${title(row.name)}</label>
    <p class="means" id="${id}-help">${safe(row.meaning)}</p>
    ${entry(row, path, value, unit)}
    <p class="said" id="${id}-said" role="alert"></p>${
    row.measure ? `<details class="how"><summary>How to get it: ${safe(row.means)}</summary>
    <p>${safe(row.measure)}</p></details>` : ""}</div>`;
}

// What stands in a field, as the file has it.
export function valueOf(node) {
  const part = (name) => node.querySelector(`[data-part=${name}]`);
  const tapped = (name) =>
    node.querySelector(`[data-part=${name}][aria-pressed=true]`)?.value ?? "";
  if (part("whole")) return part("whole").value.trim();
  return together({ number: part("number").value, unit: part("unit")?.value ?? "",
    tolerance: tapped("tolerance"), origin: tapped("origin") });
}
