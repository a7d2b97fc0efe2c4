// The answer as the page shows it: the sentences of the first screen, then what to measure.

const safe = (text) =>
  text.replace(/[&<>"]/g, (sign) => ({ "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" })[sign]);

// What the command tells to be typed is nothing for a page.
const shown = ({ label, text }) => label !== "More" && text !== "";

// Heat that is not there yet may turn every word but one.
function headed({ label, text }, verdict, waiting) {
  if (label !== "Verdict" || !waiting || verdict === "falls short") return label;
  return "So far, without heat";
}

function sentence(one, verdict, waiting) {
  const label = headed(one, verdict, waiting);
  return label === "" ? `<li>${safe(one.text)}</li>`
    : `<dt>${label}</dt><dd${one.label === "Verdict" ? ' class="verdict"' : ""}>${safe(one.text)}</dd>`;
}

// Names of lines in a refusal lead to their fields.
const PATH = /\b[a-z_]+(?:\.[a-z_]+)+\b/g;
const led = (text) =>
  safe(text).replace(PATH, (path) => `<button type="button" class="link" data-jump="${path}">${path}</button>`);

export function refusal({ line, field, text, before }) {
  const file = before ? "The stock vehicle's file" : "Not yet";
  const said = text.startsWith(field) || field === "" ? text : `${field}: ${text}`;
  return `<p><strong>${file}:</strong> ${led(said)}${line ? ` (line ${line})` : ""}</p>`;
}

// `heat`: "waiting", "stopped", "failed" or "".
export function answer({ screen, next, verdict }, heat) {
  const waiting = heat !== "";
  const told = screen.filter(shown);
  const part = (wanted) =>
    told.filter(({ label }) => (label === "") === wanted)
      .map((one) => sentence(one, verdict, waiting)).join("");
  const state = { waiting: "Heat is being worked out.", stopped: "Heat was stopped.",
    failed: "Heat could not be worked out." }[heat];
  return `${state ? `<p class="heat">${state} <button type="button" data-heat="${
      heat === "waiting" ? "stop" : "again"}">${heat === "waiting" ? "Stop" : "Again"}</button></p>` : ""}
    <dl>${part(false)}</dl><ul>${part(true)}</ul>
    ${next.length ? `<p>Measure next: ${next.map((path) =>
      `<button type="button" data-jump="${safe(path)}">${safe(path)}</button>`).join(" ")}</p>` : ""}`;
}
