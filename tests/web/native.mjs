// SPDX-License-Identifier: MIT
// The command and the page's core, side by side.
import { readFileSync, readdirSync } from "node:fs";
import { spawnSync } from "node:child_process";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

import { openCore } from "../../bindings/web/core.mjs";

export const ROOT = join(dirname(fileURLToPath(import.meta.url)), "../..");
export const BUILD = process.env.LIBBRAKE_BUILD ?? join(ROOT, "build");

export const module = await WebAssembly.compile(readFileSync(join(BUILD, "web/core.wasm")));
export const core = await openCore(module);

// The command's own words.
export function command(words, input = "") {
  const done = spawnSync(join(BUILD, "stopmargin"), words, {
    encoding: "utf8",
    input,
    maxBuffer: 1 << 26,
    env: { ...process.env, SOURCE_DATE_EPOCH: "0", OMP_WAIT_POLICY: "passive" },
  });
  return { text: done.stdout, said: done.stderr, status: done.status };
}

// Files of the folder OTHER_VEHICLES are looked at too.
const other = process.env.OTHER_VEHICLES;

export const vehicles = [
  ...["heron.ini", "heron-before.ini"].map((name) => join(ROOT, "examples", name)),
  ...readdirSync(join(ROOT, "tests/vehicles"))
    .filter((name) => name.endsWith(".ini"))
    .map((name) => join(ROOT, "tests/vehicles", name)),
  ...(other ? readdirSync(other).filter((name) => name.endsWith(".ini")) : []).map((name) =>
    join(other, name)),
];

export const read = (path) => readFileSync(path, "utf8");

// A file without its link to the vehicle before, so that both look at one file.
export const alone = (path) => read(path).replace(/^before\s*=.*$/m, "");

// The same without what heat needs: neither side then runs a fade procedure.
export const cold = (path) => alone(path).replace(/^(rotor_mass|drum_mass)\s*=.*$/gm, "");
