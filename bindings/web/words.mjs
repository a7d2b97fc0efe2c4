// SPDX-License-Identifier: MIT
// Text as a page takes it, and names of lines as a person reads them.

const SIGNS = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" };
export const safe = (text) => text.replace(/[&<>"]/g, (sign) => SIGNS[sign]);

const NAMES = { cg: "CG", mu: "friction (mu)", empty: "(empty)", full: "(full)" };

// "rear.drum.piston_travel": Rear drum piston travel
export function title(path) {
  const text = path.split(/[._]/).map((word) => NAMES[word] ?? word).join(" ");
  return text[0].toUpperCase() + text.slice(1);
}

// A name for a file: letters and digits of what the vehicle is called.
export function fileName(called, end) {
  const words = (called ?? "").toLowerCase().match(/[a-z0-9]+/g) ?? ["vehicle"];
  return `${words.join("-").slice(0, 40)}.${end}`;
}
