// SPDX-License-Identifier: MIT
// The page against its goals: size, the first answer after it is opened, an answer after a change.
// Times are those of the processor: one thread works, and what else the machine does is no part.
import { readFileSync, statSync } from "node:fs";
import { join } from "node:path";

import { openCore, unpacked } from "../../bindings/web/core.mjs";
import { BUILD, ROOT, read } from "../web/native.mjs";

const FILE = join(BUILD, "stopmargin.html");
const heron = read(join(ROOT, "examples/heron.ini"));
const before = read(join(ROOT, "examples/heron-before.ini"));

function tell(what, value, unit, goal) {
  const met = value <= goal ? "met" : "missed";
  console.log(`web: ${what} ${value.toFixed(0)} ${unit} (goal ${goal}: ${met})`);
}

const spent = () => process.cpuUsage().user / 1000;

// The least of several, in ms.
function least(runs, work) {
  return Math.min(...Array.from({ length: runs }, () => {
    const begin = spent();
    work();
    return spent() - begin;
  }));
}

tell("size", statSync(FILE).size / 1000, "kB", 900);
const begin = spent();
const packed = /<script id="core"[^>]*>([^<]*)</.exec(readFileSync(FILE, "utf8"))[1];
const core = await openCore(await unpacked(packed));
core("check", heron, "", 0);
tell("first answer, cold", spent() - begin, "ms", 1000);
tell("change, cold rows", least(15, () => core("check", heron, "", 0)), "ms", 60);
tell("change, beside the stock vehicle", least(15, () => core("check", heron, before, 0)),
  "ms", 60);
tell("change, hot rows in the worker", least(3, () => core("check", heron, before, 1)), "ms", 2000);
tell("pedal-force curve", least(15, () => core("pedal", heron)), "ms", 60);
