// SPDX-License-Identifier: MIT
// What stands on paper, and what keeps it from being there.
import { safe } from "./words.mjs";

// A plan that wants a word first: what is wrong with the vehicle, each to be said.
export function obstacles(list) {
  return `<p><strong>Do not drive it.</strong> Whoever knows better says so for each:</p>${list
    .map(({ word, text }) => `<label><input type="checkbox" name="despite" value="${word}" required>
      I know: ${safe(text)}.</label>`).join("")}<button>Plan it all the same</button>`;
}

// What came back: a paper, what keeps the vehicle from being driven, or why there is none.
export function outcome({ text, failed }) {
  if (!text) return { said: failed ?? "Memory is short." };
  if (!text.startsWith("{")) return { paper: text, said: "" };
  const { refused, obstacles: found } = JSON.parse(text);
  return found ? { obstacles: found, said: "" } : { said: refused.text };
}

// A file that is dropped or opened: a vehicle, or the log of a drive.
export const kindOfFile = (name, text) =>
  /\.(csv|tsv)$/i.test(name) || !/^\s*\[/m.test(text) ? "log" : "vehicle";
