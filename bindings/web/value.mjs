// A value as the file has it, taken apart for the form and put together again.

const ORIGIN = /,\s*(measured|catalogue|estimated)\s*$/;
const TOLERANCE = /\s*\+-\s*(.+?)\s*$/;
// A number, a fraction, a range; pistons and pairs are none.
const NUMBER = /^([-+]?\d*\.?\d+(?:\s+\d+)?(?:\/\d+)?(?:\s*-\s*\d*\.?\d+)?)\s*([^\d\s.x(][^(]*)?$/;

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

// A comma typed as the decimal sign is one; an edge code such as FF takes no unit.
export function together({ number, unit, tolerance, origin }) {
  const words = number.trim().replace(/^(\d+),(\d+)$/, "$1.$2");
  if (words === "") return "";
  const plain = /^[-+\d./\s]+$/.test(words) && unit !== "";
  return (
    (plain ? `${words} ${unit}` : words) +
    (tolerance ? ` +- ${tolerance}` : "") +
    (origin ? `, ${origin}` : "")
  );
}
