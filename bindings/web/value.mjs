// SPDX-License-Identifier: MIT
// A value as the file has it, taken apart for the form and put together again.

const ORIGIN = /,\s*(measured|catalogue|estimated)\s*$/;
const TOLERANCE = /\s*(?:\+-|±)\s*(.+?)\s*$/;
// A number, a fraction, a range, or pistons of one size; pairs are none.
const NUMBER = /^((?:\d+\s*x\s*)?[-+]?\d*\.?\d+(?:\s+\d+)?(?:\/\d+)?(?:\s*-\s*\d*\.?\d+)?)\s*([^\d\s.x(][^\d(,]*\d?)?$/;
const PLAIN = /^[-+\d./\sx]+$/;

export const ORIGINS = ["measured", "catalogue", "estimated"];
export const TOLERANCES = ["0.5 %", "1 %", "2 %", "5 %"];

// What cannot be taken apart stays whole in `number`.
export function apart(text) {
  let rest = text ?? "";
  if (rest.startsWith("...")) return { number: "", unit: "", tolerance: "", origin: "" };
  const origin = ORIGIN.exec(rest)?.[1] ?? "";
  rest = rest.replace(ORIGIN, "");
  const tolerance = TOLERANCE.exec(rest)?.[1] ?? "";
  rest = rest.replace(TOLERANCE, "").trim();
  const found = NUMBER.exec(rest);
  if (!found) return { number: rest, unit: "", tolerance, origin };
  return { number: found[1].trim(), unit: (found[2] ?? "").trim(), tolerance, origin };
}

// A comma typed as the decimal sign is one; an edge code such as FF takes no unit. A unit, tolerance
// or origin that was typed along goes before what was tapped.
export function together({ number, unit, tolerance, origin }) {
  const typed = apart(number.trim().replace(/^(\d+),(\d+)/, "$1.$2"));
  if (typed.number === "") return "";
  const has = typed.unit || (PLAIN.test(typed.number) ? unit : "");
  const within = typed.tolerance || tolerance;
  const from = typed.origin || origin;
  return `${typed.number}${has ? ` ${has}` : ""}${within ? ` +- ${within}` : ""}${
    from ? `, ${from}` : ""}`;
}
