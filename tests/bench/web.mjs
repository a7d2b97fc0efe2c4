// SPDX-License-Identifier: MIT
// The page's core: its size, the first answer, a change.
import { readFileSync, statSync } from "node:fs";
import { join } from "node:path";

import { openCore } from "../../bindings/web/core.mjs";
import { BUILD, ROOT, read } from "../web/native.mjs";

const RUNS = 15;
const heron = read(join(ROOT, "examples/heron.ini"));
const timed = (work) => {
  const begin = performance.now();
  work();
  return performance.now() - begin;
};

const begin = performance.now();
const core = await openCore(await WebAssembly.compile(readFileSync(join(BUILD, "web/core.wasm"))));
core("check", heron, "", 0);
const first = performance.now() - begin;
const changes = Array.from({ length: RUNS }, () => timed(() => core("check", heron, "", 0)));
const change = Math.min(...changes);
const hot = timed(() => core("check", heron, "", 1));
const size = statSync(join(BUILD, "stopmargin.html")).size;
console.log(`web: ${(size / 1000).toFixed(0)} kB (at most 900); first answer ${first.toFixed(0)} ms`);
console.log(`web: cold rows ${change.toFixed(0)} ms (goal 60), with heat ${hot.toFixed(0)} ms (goal 2000)`);
