// SPDX-License-Identifier: MIT
// The page's core says what the command says.
import assert from "node:assert/strict";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import { test } from "node:test";

import { made } from "./made.mjs";
import { ROOT, alone, cold, command, core, read, stockOf, vehicles } from "./native.mjs";

const heron = join(ROOT, "examples/heron.ini");
const before = join(ROOT, "examples/heron-before.ini");

// The words of the command and those of the page, of one text.
function sameScreen(text) {
  const native = command(["check", "-"], text);
  if (native.status !== 2) assert.equal(core("check_text", text, ""), native.text);
  else assert.equal(refusalOf(JSON.parse(core("check", text, "", 0))), native.said.trim());
  return native.status;
}

const refusalOf = ({ refused: { line, field, text } }) =>
  `standard input:${line || ""}${line ? ":" : ""} ${field}: ${text}`;

for (const path of vehicles) {
  test(`the first screen of ${basename(path)} without heat is the command's, word for word`, () => {
    assert.notEqual(sameScreen(cold(path)), 2);
  });
}

// With the test vehicles more than 50.
const MADE = 20;

test(`so is that of ${MADE} vehicles made of these, or the refusal`, () => {
  const catalogue = JSON.parse(core("catalogue"));
  const ended = Array.from({ length: MADE }, (_, seed) =>
    sameScreen(made(cold(vehicles[seed % vehicles.length]), seed + 1, catalogue)));
  assert.ok(vehicles.length + MADE >= 50);
  for (const status of [1, 3]) assert.ok(ended.includes(status), `none ended with ${status}`);
});

// Heat takes seconds a vehicle: `make check-page` looks at all.
const every = process.env.EVERY_VEHICLE;
const sample = (name) => (every ? vehicles : [join(ROOT, "tests/vehicles", name)]);

for (const path of sample("ibex-33s.ini")) {
  test(`with heat the first screen of ${basename(path)} is the command's, shown too`, () => {
    const [text, stock] = [alone(path), stockOf(path)];
    const native = command(["check", "-", ...(stock ? ["--before", stock] : [])], text).text;
    const was = stock ? read(stock) : "";
    assert.equal(core("check_text", text, was), native);
    const told = native.replace(/\s+/g, " ");
    for (const one of JSON.parse(core("check", text, was, 1)).screen)
      assert.ok(told.includes(one.text), one.text);
  });
}

test("the whole check of a vehicle with heat, beside the vehicle before, is the command's", () => {
  assert.equal(core("check_text", read(heron), read(before)),
    command(["check", heron, "--before", before]).text);
});

test("rows of heat are being worked out in the cold answer, and in no verdict", () => {
  const { screen, verdict } = JSON.parse(core("check", alone(heron), "", 0));
  const told = screen.map((one) => one.text).join("\n");
  assert.match(told, /being worked out/);
  assert.doesNotMatch(told, /fade procedure was not run/);
  assert.equal(verdict, "falls short");
});

test("a refusal names file, line, field and reason as the command does", () => {
  const text = alone(heron).replace(/^wheelbase .*$/m, "wheelbase = 2420 kg");
  assert.equal(sameScreen(text), 2);
});

test("a refusal of the vehicle before says that it is of that file", () => {
  const wrong = alone(before).replace(/^wheelbase .*$/m, "wheelbase = 2420 kg");
  assert.equal(JSON.parse(core("check", alone(heron), wrong, 0)).refused.before, true);
});

for (const [front, rear, assist, us] of [[0, 1, 1, 0], [0, 0, 2, 1], [1, 1, 0, 0]]) {
  test(`the file to start from is that of new: ${front} ${rear} ${assist} ${us}`, () => {
    const brakes = ["disc", "drum"];
    const words = ["new", "--front", brakes[front], "--rear", brakes[rear], "--country", "at",
      "--assist", ["none", "vacuum", "hydraulic"][assist], "--units", us ? "us" : "si"];
    assert.equal(core("start", front, rear, assist, "private", "at", us), command(words).text);
  });
}

test("the log of a drive is measured as by the command", () => {
  const log = join(ROOT, "examples/heron-drive.csv");
  const page = core("drive", read(heron), read(log)).replace(/<[^>]*>/g, " ");
  const native = command(["drivelog", heron, log]).text;
  const sentence = /^Verdict\s+(.*)$/m.exec(native)?.[1] ?? native.split("\n")[2].trim();
  assert.ok(page.replace(/\s+/g, " ").includes(sentence.replace(/\s+/g, " ").slice(0, 50)), sentence);
});

test("what a drive made likely is said as by the command, also beside the vehicle before", () => {
  const folder = mkdtempSync(join(tmpdir(), "page-"));
  try {
    const log = read(join(ROOT, "examples/heron-drive.csv"));
    const text = `${cold(heron)}\n[drive]\nlog = log.csv\n`;
    writeFileSync(join(folder, "log.csv"), log);
    writeFileSync(join(folder, "now.ini"), text);
    writeFileSync(join(folder, "before.ini"), cold(before));
    const files = [join(folder, "now.ini"), "--before", join(folder, "before.ini")];
    const native = command(["check", ...files]);
    assert.match(native.text, /^Drive /m);
    assert.equal(core("check_text", text, cold(before), log), native.text);
  } finally {
    rmSync(folder, { recursive: true });
  }
});

// The paper names the file that it was read from; a page has a text.
const unnamed = (html) => html.replace(/standard input/g, "");

test("the report is the command's, but for the name of the file", () => {
  const text = read(join(ROOT, "tests/vehicles/minimal-afternoon.ini"));
  const native = command(["report", "-", "-o", "-"], text);
  const words = (html) => unnamed(html).replace(/<[^>]*>/g, " ").split(/\s+/);
  const page = words(core("report", text, "", "1970-01-01"));
  const missing = words(native.text).filter((word) => !page.includes(word));
  assert.deepEqual(missing, []);
});

// The plan of a vehicle, and what the command says of it.
function plans(name, despite) {
  const text = read(join(ROOT, "tests/vehicles", name));
  const words = despite ? ["--despite", despite] : [];
  return [core("plan", text, despite), command(["shakedown", "-", ...words], text)];
}

test("the plan of the first drive is the command's", () => {
  const [page, native] = plans("ibex-stock.ini", "");
  assert.equal(native.status, 0);
  assert.equal(page, native.text);
});

test("what keeps a vehicle from being driven is told in the command's words", () => {
  const [page, native] = plans("tapir-one-circuit.ini", "");
  const { obstacles } = JSON.parse(page);
  assert.equal(native.status, 1);
  assert.ok(obstacles.length > 0);
  for (const { word, text } of obstacles)
    assert.ok(native.said.includes(`${text}. Whoever knows better says --despite ${word}`), word);
});

test("whoever says the word gets the command's plan all the same", () => {
  const [, { said }] = plans("lynx-rear-heavy.ini", "");
  const despite = [...said.matchAll(/--despite ([a-z-]+)/g)].map(([, word]) => word).join(",");
  const [page, native] = plans("lynx-rear-heavy.ini", despite);
  assert.equal(native.status, 0);
  assert.equal(page, native.text);
});

test("what has no unit is offered none", () => {
  const { quantities } = JSON.parse(core("catalogue"));
  assert.deepEqual(quantities.filter(({ si, units }) => si === "" && units !== ""), []);
});

function same(one, other, path) {
  if (typeof one === "number") {
    assert.ok(Math.abs(one - other) <= 1e-9 * Math.max(1, Math.abs(one)), path);
  } else if (one === null || typeof one !== "object") {
    assert.equal(other, one, path);
  } else {
    assert.deepEqual(Object.keys(other), Object.keys(one), path);
    for (const key of Object.keys(one)) same(one[key], other[key], `${path}.${key}`);
  }
}

for (const path of sample("minimal-afternoon.ini")) {
  test(`every requirement of ${basename(path)} with every number is the command's`, () => {
    const text = alone(path);
    const native = JSON.parse(command(["check", "-", "--json"], text).text);
    same(native, JSON.parse(core("check_json", text, "")), "check");
  });
}
