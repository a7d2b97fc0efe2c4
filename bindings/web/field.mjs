// One line of the file as a field: number, unit, tolerance, where it came from.
import { ORIGINS, TOLERANCES, apart, together } from "./value.mjs";

export const idOf = (path) => `line-${path.replaceAll(".", "-")}`;

const escape = (text) =>
  text.replace(/[&<>"]/g, (sign) => ({ "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" })[sign]);
export const title = (name) => {
  const text = name.replace(/[._]/g, " ");
  return text[0].toUpperCase() + text.slice(1);
};

const options = (words, chosen) =>
  words.map((word) => `<option${word === chosen ? " selected" : ""}>${escape(word)}</option>`).join("");

function taps(path, kind, words, chosen, legend) {
  const shown = chosen === "" || words.includes(chosen) ? words : [...words, chosen];
  return `<fieldset class="taps"><legend>${legend}</legend>${shown
    .map((word) => `<label><input type="radio" name="${kind}-${path}" data-part="${kind}"
      value="${escape(word)}"${word === chosen ? " checked" : ""}><span>${
        kind === "tolerance" ? "± " : ""}${escape(word)}</span></label>`)
    .join("")}</fieldset>`;
}

function unitsOf(row, unit) {
  return [...new Set([unit, row.si, row.us, ...row.units.split(" ")].filter((name) => name))];
}

function entry(row, path, value, unit) {
  const id = idOf(path);
  const help = `aria-describedby="${id}-help ${id}-said"`;
  if (row.kind === "choice") {
    const words = row.choices.split(" ");
    const word = apart(value).number;
    return `<select id="${id}" data-part="whole" ${help}>${
      options(words.includes(word) ? words : ["", ...words], word)}</select>`;
  }
  if (row.kind !== "real")
    return `<input id="${id}" data-part="whole" autocomplete="off" value="${escape(value)}"
      placeholder="${row.kind === "pistons" ? `2 x 48 ${unit}` : ""}" ${help}>`;
  const parts = apart(value);
  const units = unitsOf(row, parts.unit || unit);
  return `<span class="amount"><input id="${id}" data-part="number" autocomplete="off"
    inputmode="${unit === "in" ? "text" : "decimal"}" value="${escape(parts.number)}" ${help}>${
    units.length ? `<select data-part="unit" aria-label="Unit of ${title(row.name)}">${
      options(units, parts.unit || unit)}</select>` : ""}</span>
    ${taps(path, "tolerance", TOLERANCES, parts.tolerance, "Sure within")}
    ${taps(path, "origin", ORIGINS, parts.origin, "It is")}`;
}

// `value` as the file has it, "" for none; `unit` the one used last for such numbers.
export function field(row, path, value, unit) {
  const id = idOf(path);
  return `<div class="field" data-path="${path}" data-kind="${row.kind}">
    <label for="${id}">${title(row.name)}</label>
    ${entry(row, path, value, unit)}
    <p class="said" id="${id}-said" role="alert"></p>
    <details><summary>How: ${escape(row.means)}</summary>
    <p id="${id}-help">${escape(row.meaning)} ${escape(row.measure)}</p></details></div>`;
}

// What stands in a field, as the file has it.
export function valueOf(node) {
  const part = (name) => node.querySelector(`[data-part=${name}]`);
  const tapped = (name) => node.querySelector(`[data-part=${name}]:checked`)?.value ?? "";
  if (part("whole")) return part("whole").value.trim();
  return together({ number: part("number").value, unit: part("unit")?.value ?? "",
    tolerance: tapped("tolerance"), origin: tapped("origin") });
}
