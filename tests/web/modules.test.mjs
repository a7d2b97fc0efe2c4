// SPDX-License-Identifier: MIT
// The page's own modules.
import assert from "node:assert/strict";
import { test } from "node:test";

import { get, given, lines, set } from "../../bindings/web/file.mjs";
import { History, Store } from "../../bindings/web/history.mjs";
import { apart, together } from "../../bindings/web/value.mjs";
import { serve } from "../../bindings/web/worker.mjs";
import { module } from "./native.mjs";

const FILE = `; my car
[vehicle]
Wheelbase  = 2420 mm +- 4 mm, measured ; both sides
country    = ...   ; papers

[front.disc]
pistons = 2 x 48 mm
`;

test("a line is found by its path whatever its letters", () => {
  assert.equal(get(FILE, "vehicle.wheelbase"), "2420 mm +- 4 mm, measured");
  assert.equal(get(FILE, "front.disc.mounting"), undefined);
});

test("dots count as left out", () => {
  assert.equal(given(get(FILE, "vehicle.country")), false);
  assert.equal(given(get(FILE, "front.disc.pistons")), true);
});

test("a line that is set keeps its name, its place and its comment", () => {
  const text = set(FILE, "vehicle.wheelbase", "95 in");
  assert.match(text, /^Wheelbase {2}= 95 in +; both sides$/m);
  assert.equal(text.split("\n")[2].indexOf(";"), FILE.split("\n")[2].indexOf(";"));
  assert.equal(lines(text).length, lines(FILE).length);
});

test("a line that is new goes to the end of its section, or begins one", () => {
  assert.match(set(FILE, "vehicle.use", "private"), /country.*\nuse = private\n/);
  assert.match(set(FILE, "heat.fluid", "DOT4"), /\n\[heat\]\nfluid = DOT4\n$/);
});

test("an emptied line has dots again", () => {
  assert.equal(given(get(set(FILE, "front.disc.pistons", ""), "front.disc.pistons")), false);
});

test("a value comes apart and together again", () => {
  for (const text of ["2420 mm +- 4 mm, measured", "15/16 in", "1 3/8 in", "35 in +- 1 %, catalogue",
    "4", "0.35 - 0.45, estimated", "2 x 48 mm +- 0.05 mm, measured", "3.5 cm3",
    "1 x 38 mm + 1 x 34 mm", "35x12.50R17LT 121Q", "20 bar 5 cm3, 40 bar 9 cm3"])
    assert.equal(together(apart(text)), text);
});

test("a number has its unit beside it, so have pistons of one size", () => {
  assert.deepEqual(apart("2 x 48 mm +- 0.05 mm, measured"),
    { number: "2 x 48", unit: "mm", tolerance: "0.05 mm", origin: "measured" });
  assert.deepEqual(apart("3.5 cm3"), { number: "3.5", unit: "cm3", tolerance: "", origin: "" });
});

test("what is no number and unit stays whole", () => {
  assert.deepEqual(apart("FF, catalogue"),
    { number: "FF", unit: "", tolerance: "", origin: "catalogue" });
  assert.equal(apart("1 x 38 mm + 1 x 34 mm").number, "1 x 38 mm + 1 x 34 mm");
  assert.equal(together({ number: "FF", unit: "mm", tolerance: "", origin: "" }), "FF");
});

test("what is typed along with a number goes before what was tapped", () => {
  const tapped = { unit: "mm", tolerance: "1 %", origin: "estimated" };
  assert.equal(together({ number: "95 in", ...tapped }), "95 in +- 1 %, estimated");
  assert.equal(together({ number: "2420 ± 4 mm, measured", ...tapped }),
    "2420 mm +- 4 mm, measured");
  assert.equal(together({ number: " ", ...tapped }), "");
});

test("a decimal comma that is typed is a point in the file", () => {
  assert.equal(together({ number: "2,64", unit: "m", tolerance: "", origin: "" }), "2.64 m");
});

test("undo brings the file before the last change back, and never loses the first", () => {
  const history = new History("a");
  assert.equal(history.add("a"), false);
  history.add("b");
  assert.equal(history.undo(), "a");
  assert.equal(history.undo(), "a");
  assert.equal(history.canUndo, false);
});

test("a browser that keeps nothing is told as one", () => {
  const full = new Store(() => ({ setItem: () => { throw new Error("full"); }, getItem: () => null }));
  assert.equal(full.keep("file", "a"), false);
  assert.equal(full.kept("file"), "");
  const refused = new Store(() => { throw new Error("no storage for such a file"); });
  assert.equal(refused.keep("file", "a"), false);
  assert.equal(refused.kept("file"), "");
});

test("what is kept is found again", () => {
  const shelf = new Map();
  const store = new Store(() => ({ setItem: (name, text) => shelf.set(name, text),
    getItem: (name) => shelf.get(name) }));
  assert.equal(store.keep("file", "a"), true);
  assert.equal(store.kept("file"), "a");
});

const answered = (scope, data) => new Promise((done) => {
  serve(scope, done);
  scope.onmessage({ data });
});

test("the worker answers with the core that it is given, or says what failed", async () => {
  const { text } = await answered({}, { module, name: "start", given: [0, 1, 1, "private", "", 0] });
  assert.match(text, /\[front.disc\]/);
  assert.match((await answered({}, { module, name: "nothing", given: [] })).failed, /not a function/);
});
