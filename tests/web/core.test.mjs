// The page's core says what the command says.
import assert from "node:assert/strict";
import { basename, join } from "node:path";
import { test } from "node:test";

import { ROOT, alone, cold, command, core, read, vehicles } from "./native.mjs";

const heron = join(ROOT, "examples/heron.ini");
const before = join(ROOT, "examples/heron-before.ini");

for (const path of vehicles) {
  test(`the first screen of ${basename(path)} without heat is the command's, word for word`, () => {
    const text = cold(path);
    const native = command(["check", "-"], text);
    assert.notEqual(native.status, 2);
    assert.equal(core("check_text", text, ""), native.text);
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
  const { refused } = JSON.parse(core("check", text, "", 0));
  assert.equal(
    command(["check", "-"], text).said.trim(),
    `standard input:${refused.line}: ${refused.field}: ${refused.text}`,
  );
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

test("the plan of the first drive is the command's, or its refusal in the same words", () => {
  const text = read(join(ROOT, "tests/vehicles/minimal-afternoon.ini"));
  const native = command(["shakedown", "-"], text);
  const page = core("plan", text);
  if (native.status === 1) assert.ok(native.said.includes(JSON.parse(page).refused.text), page);
  else assert.equal(page, native.text);
});

test("every requirement with every number is the command's", () => {
  const text = read(join(ROOT, "tests/vehicles/minimal-afternoon.ini"));
  const native = JSON.parse(command(["check", "-", "--json"], text).text);
  const page = JSON.parse(core("check_json", text, ""));
  const same = (one, other, path) => {
    if (typeof one === "number") {
      assert.ok(Math.abs(one - other) <= 1e-9 * Math.max(1, Math.abs(one)), path);
    } else if (one === null || typeof one !== "object") {
      assert.equal(other, one, path);
    } else {
      assert.deepEqual(Object.keys(other), Object.keys(one), path);
      for (const key of Object.keys(one)) same(one[key], other[key], `${path}.${key}`);
    }
  };
  same(native, page, "check");
});
