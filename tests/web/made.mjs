// SPDX-License-Identifier: MIT
// Vehicles made of others: numbers moved, lines left out, choices turned; the same ones every time.
import { lines, set } from "../../bindings/web/file.mjs";

// Multiply-with-carry, from a seed: 0 to 1.
function numbers(seed) {
  let [low, high] = [seed, 362436069];
  return () => {
    low = (18000 * (low & 65535) + (low >>> 16)) >>> 0;
    high = (30903 * (high & 65535) + (high >>> 16)) >>> 0;
    return (((low << 16) >>> 0) + (high & 65535)) / 2 ** 32;
  };
}

const moved = (value, next) =>
  value.replace(/^\d+(\.\d+)?/, (number) => (Number(number) * (0.9 + 0.2 * next())).toPrecision(4));

// A year or a count that is moved is refused: one of those would be enough of a vehicle.
const moves = (row) => row?.kind === "real" && row.si !== "" && !row.name.includes("rollout");

// Every second line is moved, few choices are others, hardly a line is gone.
export function made(text, seed, catalogue) {
  const next = numbers(seed);
  const rows = new Map(catalogue.quantities.map((row) => [`${row.section}.${row.name}`, row]));
  let other = text;
  for (const { path, value } of lines(text)) {
    const row = rows.get(path);
    const drawn = next();
    if (moves(row) && drawn < 0.5) other = set(other, path, moved(value, next));
    else if (row?.kind === "choice" && drawn < 0.03) {
      const words = row.choices.split(" ");
      other = set(other, path, words[Math.floor(words.length * next())]);
    } else if (drawn > 0.995) other = set(other, path, "");
  }
  return other;
}
