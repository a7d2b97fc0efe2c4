// SPDX-License-Identifier: MIT
// What the page's modules make of a text: HTML, and texts again.
import assert from "node:assert/strict";
import { test } from "node:test";

import { answer, refusal } from "../../bindings/web/answer.mjs";
import { unpacked } from "../../bindings/web/core.mjs";
import { drawing, drawn } from "../../bindings/web/drawings.mjs";
import { field, valueOf } from "../../bindings/web/field.mjs";
import { get, inInches } from "../../bindings/web/file.mjs";
import { additions, form, others, plan, rowOf, startOf } from "../../bindings/web/form.mjs";
import { Heat } from "../../bindings/web/heat.mjs";
import { kindOfFile, obstacles, outcome } from "../../bindings/web/papers.mjs";
import { changesOf, trials, tried } from "../../bindings/web/trial.mjs";
import { fileName, safe, title } from "../../bindings/web/words.mjs";
import { core } from "./native.mjs";

const catalogue = JSON.parse(core("catalogue"));
const row = (path) => rowOf(catalogue, path);
const ROWS = { "front.disc.pistons": "2 x 48 mm, measured", "front.tyre.marking": "35x12.50R17LT",
  "front.tyre.rollout": "2.64 m +- 0.01 m", "front.axle.brake": "disc", "rear.axle.brake": "drum",
  "part.winch.mass": "38 kg" };
const TEXT = Object.entries(ROWS).map(([path, value]) => {
  const dot = path.lastIndexOf(".");
  return `[${path.slice(0, dot)}]\n${path.slice(dot + 1)} = ${value}\n`;
}).join("");

// A field of the page, as far as it is asked.
const node = (parts, path) => ({
  dataset: { try: path },
  querySelector: (selector) => {
    const [, name] = /data-part=(\w+)/.exec(selector);
    return parts[name] === undefined ? null : { value: parts[name] };
  },
});

test("text is no markup on the page", () => {
  assert.equal(safe('<b> & "c"'), "&lt;b&gt; &amp; &quot;c&quot;");
  assert.doesNotMatch(field(row("vehicle.name"), "vehicle.name", "<script>", ""), /<script>/);
  assert.doesNotMatch(refusal({ line: 1, field: "", text: "<b>" }, () => false), /<b>/);
});

test("names are such as a person reads", () => {
  assert.equal(title("rear.drum.piston_travel"), "Rear drum piston travel");
  assert.equal(title("cg_height"), "CG height");
  assert.equal(fileName("Heron (invented), after", "ini"), "heron-invented-after.ini");
  assert.equal(fileName(undefined, "html"), "vehicle.html");
});

test("a file is in inches by its values, and by its dots", () => {
  assert.equal(inInches("[a]\nb = ... in ; tape\n"), true);
  assert.equal(inInches("[a]\nb = 12 mm ; an in\n"), false);
});

test("a line of the catalogue is found, also that of a part", () => {
  assert.equal(row("part.winch.mass").name, "mass");
  assert.equal(row("hazard.parking"), undefined);
});

test("a field has its number, its unit, and what is tapped", () => {
  const html = field(row("front.tyre.rollout"), "front.tyre.rollout", "2.64 m +- 0.01 m, measured", "m");
  assert.match(html, /value="2.64"/);
  assert.match(html, /<option selected>m</);
  assert.match(html, /value="0.01 m" aria-pressed="true"/);
  assert.match(html, /value="measured" aria-pressed="true"/);
  assert.match(html, /inputmode="decimal"/);
});

test("an empty field asks for nothing but its number; inches have no number pad for fractions", () => {
  const html = field(row("master.bore"), "master.bore", "", "in");
  assert.match(html, /class="sure" hidden/);
  assert.match(html, /inputmode="text"/);
});

test("what has no unit is offered none, papers no tolerance, a choice what the file has", () => {
  assert.doesNotMatch(field(row("pedal.ratio"), "pedal.ratio", "4", ""), /data-part="unit"/);
  assert.doesNotMatch(field(row("vehicle.rated_mass"), "vehicle.rated_mass", "2 t", "kg"), /Sure within/);
  assert.match(field(row("front.axle.brake"), "front.axle.brake", "drum", ""), /<option selected>drum/);
  assert.match(field(row("front.axle.brake"), "front.axle.brake", "", ""), /<option selected><\/option>/);
});

test("a field gives the value that the file has", () => {
  assert.equal(valueOf(node({ whole: " drum " })), "drum");
  assert.equal(valueOf(node({ number: "15/16", unit: "in", tolerance: "1 %", origin: "measured" })),
    "15/16 in +- 1 %, measured");
  assert.equal(valueOf(node({ number: "4" })), "4");
});

test("the form has the sections of the vehicle, parts by their names, and counts what is given", () => {
  const sections = plan(TEXT, startOf(TEXT, core, false), catalogue, ["tilt"]);
  const paths = sections.map(({ path }) => path);
  for (const path of ["front.disc", "rear.drum", "part.winch", "tilt"]) assert.ok(paths.includes(path), path);
  for (const path of ["front.drum", "rear.disc", "part"]) assert.ok(!paths.includes(path), path);
  const html = form(sections, new Set(["front.disc"]), (one) => one.si);
  assert.match(html, /data-section="front.disc" open/);
  assert.match(html, /Part winch<\/h2>\s*<span class="count">1 of 3 given/);
});

test("what the vehicle may have besides can be added", () => {
  const sections = plan(TEXT, startOf(TEXT, core, true), catalogue);
  const paths = others(sections, catalogue, TEXT).map(({ path }) => path);
  assert.ok(paths.includes("trailer") && paths.includes("front.disc.pads") === false);
  assert.ok(!paths.includes("front.drum"), "a disc brake has no drum");
  assert.match(additions(others(sections, catalogue, TEXT)), /data-add="trailer"/);
});

test("the file to start from has the booster of the text", () => {
  const assist = (line) => get(startOf(`[booster]\n${line}\n`, core, false), "booster.booster");
  assert.equal(assist("booster = none"), "none");
  assert.equal(assist("assist = 3 kN"), "hydraulic");
  assert.equal(assist("gain = 4"), "fitted");
});

test("a change that is tried has no tolerance and no origin, a tyre not the old one's rollout", () => {
  const other = tried(TEXT, new Map([["front.disc.pistons", "2 x 51 mm"], ["front.tyre.marking", "33x12.5R17"]]));
  assert.equal(get(other, "front.disc.pistons"), "2 x 51 mm");
  assert.match(get(other, "front.tyre.rollout"), /^\.\.\./);
  const both = tried(TEXT, new Map([["front.tyre.marking", "x"], ["front.tyre.rollout", "2.5 m"]]));
  assert.equal(get(both, "front.tyre.rollout"), "2.5 m");
});

test("only what differs from the file is a change", () => {
  const nodes = [node({ number: "2 x 48", unit: "mm" }, "front.disc.pistons"),
    node({ number: "2.5", unit: "m" }, "front.tyre.rollout")];
  assert.deepEqual([...changesOf(TEXT, nodes)], [["front.tyre.rollout", "2.5 m"]]);
  assert.match(trials(TEXT, row, (one) => one.si), /data-try="front.disc.pistons"/);
});

const SCREEN = { verdict: "cannot say", next: ["master.take_up"], screen: [
  { label: "Verdict", text: "CANNOT SAY." }, { label: "Measure", text: "master.take_up (tape)." },
  { label: "", text: "cannot say hazard.floor: +2 %" }, { label: "More", text: "3 rows: --full. How" }] };
const HOW = { heat: "", isLine: (path) => path === "master.take_up", titles: new Map([["hazard.floor", "Reserve"]]),
  stock: false, named: "", tried: false };

test("the sentences lead, lines are ways to their fields, codes are told in words", () => {
  const html = answer(SCREEN, HOW);
  assert.match(html, /class="link" data-jump="master.take_up"/);
  assert.match(html, /hazard.floor: \+2 %<br><span class="means">Reserve</);
  assert.match(html, /3 rows\..*data-do="all"/);
  assert.match(html, /Measure next: <button type="button" data-jump="master.take_up">Master take up/);
});

test("what the vehicle was is asked for, by the name that the file has for it", () => {
  assert.match(answer(SCREEN, HOW), /nothing says what the vehicle was.*data-do="stock"/);
  assert.match(answer(SCREEN, { ...HOW, named: "stock.ini" }), /names stock.ini/);
  assert.match(answer(SCREEN, { ...HOW, driven: "a.csv" }), /names a.csv.*data-do="log"/);
  const told = { ...SCREEN, screen: [{ label: "Changes", text: "not known." }, ...SCREEN.screen] };
  assert.equal(answer(told, HOW), answer(SCREEN, HOW));
  assert.doesNotMatch(answer(told, { ...HOW, stock: true }), /data-do="stock"/);
});

test("without heat a verdict is one so far, but that it falls short", () => {
  assert.match(answer(SCREEN, { ...HOW, heat: "waiting" }), /So far, without heat.*CANNOT SAY/);
  assert.match(answer({ ...SCREEN, verdict: "falls short" }, { ...HOW, heat: "stopped" }), /<dt>Verdict/);
  for (const [heat, words] of [["waiting", "Stop"], ["stopped", "Go on"], ["failed", "Try again"]])
    assert.match(answer(SCREEN, { ...HOW, heat }), new RegExp(words));
  assert.match(answer(SCREEN, { ...HOW, tried: true }), /it is not in the file/);
});

test("a refusal names its field once, its line, and the file when it is the other", () => {
  const told = refusal({ line: 3, field: "master.bore", text: "got 4", before: true }, () => true);
  assert.match(told, /file of the vehicle as it was.*data-jump="master.bore".*got 4 \(line 3\)/);
  assert.doesNotMatch(refusal({ line: 0, field: "a.b", text: "a.b is missing" }, () => false), /line 0|a.b: a.b/);
});

test("what comes back is a paper, words to be said first, or why there is none", () => {
  assert.deepEqual(outcome({ text: "<html>" }), { paper: "<html>", said: "" });
  assert.equal(outcome({ text: '{"refused":{"text":"no"}}' }).said, "no");
  assert.equal(outcome({ failed: "ended" }).said, "ended");
  assert.equal(outcome({}).said, "Memory is short.");
  const found = outcome({ text: '{"obstacles":[{"word":"rear-first","text":"it spins"}]}' });
  assert.match(obstacles(found.obstacles), /value="rear-first" required>\s*I know: it spins/);
});

test("a file that is dropped is a vehicle, or the log of a drive", () => {
  assert.equal(kindOfFile("a.ini", "[vehicle]\n"), "vehicle");
  assert.equal(kindOfFile("a.csv", "[s],[m]\n"), "log");
  assert.equal(kindOfFile("a.txt", "time;speed\n"), "log");
});

test("every drawing has a name in words", () => {
  for (const section of drawn) assert.match(drawing(section), /role="img" aria-label="[A-Z][^"]+"/);
  assert.equal(drawing("road"), "");
});

test("the worker is ended by a stop, an answer and an error, and asked anew", () => {
  const made = [];
  const told = [];
  const heat = new Heat("module", () => {
    made.push({ postMessage: (data) => { made.at(-1).asked = data; }, terminate: () => { made.at(-1).ended = true; } });
    return made.at(-1);
  }, (name, data) => told.push([name, data]));
  heat.ask("check", "text");
  assert.deepEqual(made[0].asked, { module: "module", name: "check", given: ["text"] });
  assert.equal(heat.busy, true);
  made[0].onmessage({ data: { text: "a" } });
  assert.deepEqual([made[0].ended, heat.busy], [true, false]);
  heat.ask("plan");
  made[1].onerror();
  heat.ask("plan");
  heat.stop();
  assert.equal(made[2].ended, true);
  assert.deepEqual(told, [["check", { text: "a" }], ["plan", { failed: "the browser ended it" }]]);
});

test("the core stands packed in the page", async () => {
  const empty = new Uint8Array([0, 97, 115, 109, 1, 0, 0, 0]); // WebAssembly Core, 5.5.16: a module
  const packed = new Blob([empty]).stream().pipeThrough(new CompressionStream("gzip"));
  const text = Buffer.from(await new Response(packed).arrayBuffer()).toString("base64");
  assert.ok(await unpacked(`\n${text}\n`) instanceof WebAssembly.Module);
});
