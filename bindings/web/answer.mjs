// SPDX-License-Identifier: MIT
// The answer as the page shows it: the sentences of the first screen, then what to measure.
import { safe, title } from "./words.mjs";

// Heat that is not there yet may turn every word but one.
function headed({ label }, verdict, waiting) {
  if (label !== "Verdict" || !waiting || verdict === "falls short") return label;
  return "So far, without heat";
}

const button = (kind, value, text) =>
  `<button type="button" data-${kind}="${safe(value)}">${safe(text)}</button>`;

// Names of lines lead to their fields; `isLine` knows them.
const PATH = /\b[a-z_]+(?:\.[a-z_0-9]+)+\b/g;
const led = (text, isLine) =>
  safe(text).replace(PATH, (path) => isLine(path)
    ? `<button type="button" class="link" data-jump="${path}">${path}</button>` : path);

const row = (label, html, kind = "") =>
  `<div${kind ? ` class="${kind}"` : ""}><dt>${label}</dt><dd>${html}</dd></div>`;

// What the command tells to be typed is a button here.
const OPEN = button("do", "stock", "Open the file of the vehicle as it was");
const unknown = (named) => row("Changes", `${named
  ? `not known: this file names ${safe(named)} as the vehicle it was.`
  : "not known: nothing says what the vehicle was."} ${OPEN}`);

const undriven = (file) => row("Drive",
  `not counted: this file names ${safe(file)}. ${button("do", "log", "Open this log")}`);

const more = (text) => row("More",
  `${safe(text.replace(/: --full.*$/s, "."))} ${button("do", "all", "See them all")}`);

function said(one, { verdict, heat, isLine }) {
  if (one.label === "More") return more(one.text);
  return row(headed(one, verdict, heat !== ""), led(one.text, isLine),
    one.label === "Verdict" ? "verdict" : "");
}

export function refusal({ line, field, text, before }, isLine) {
  const file = before ? "In the file of the vehicle as it was" : "Not yet";
  const whole = text.startsWith(field) || field === "" ? text : `${field}: ${text}`;
  return `<p class="verdict"><strong>${file}:</strong> ${led(whole, isLine)}${
    line ? ` (line ${line})` : ""}</p>`;
}

const STATES = { waiting: ["Heat is being worked out.", "stop", "Stop"],
  stopped: ["Heat was stopped.", "again", "Go on"],
  failed: ["Heat could not be worked out.", "again", "Try again"] };

function state(heat) {
  if (!STATES[heat]) return "";
  const [text, word, shown] = STATES[heat];
  return `<p class="heat">${text} ${button("heat", word, shown)}</p>`;
}

// Codes of requirements in words.
function explained(text, titles) {
  const known = (text.match(PATH) ?? []).filter((code) => titles.has(code));
  return known.length ? `<br><span class="means">${
    [...new Set(known.map((code) => safe(titles.get(code))))].join("; ")}</span>` : "";
}

// What else it takes: heat ("waiting", "stopped", "failed" or ""), isLine, titles of requirements
// by code, stock (there is one), named (the file of it that this one names), driven (the log that it
// names and nobody opened), tried (a change is).
export function answer({ screen, next, verdict }, 
  { heat, isLine, titles, stock, named, driven, tried }) {
  const told = screen.filter(({ text }) => text !== "");
  const rows = told.filter(({ label }) => label !== "" && (stock || label !== "Changes"))
    .map((one) => said(one, { verdict, heat, isLine })).join("");
  const open = told.filter(({ label }) => label === "")
    .map(({ text }) => `<li>${led(text, isLine)}${explained(text, titles)}</li>`).join("");
  const trial = '<p class="heat">With the change that is tried; it is not in the file.</p>';
  return `${tried ? trial : ""}
    ${state(heat)}<dl>${stock ? "" : unknown(named)}${driven ? undriven(driven) : ""}${rows}</dl>
    ${open ? `<ul>${open}</ul>` : ""}
    ${next.length ? `<p class="next">Measure next: ${next.map((path) =>
      button("jump", path, title(path))).join(" ")}</p>` : ""}`;
}
