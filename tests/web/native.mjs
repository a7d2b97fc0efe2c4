// SPDX-License-Identifier: MIT
// The command and the page's core, side by side.
import { existsSync, readFileSync, readdirSync } from "node:fs";
import { spawnSync } from "node:child_process";
import { basename, dirname, join } from "node:path";
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

const filesOf = (folder) =>
  readdirSync(folder).filter((name) => name.endsWith(".ini")).map((name) => join(folder, name));

export const vehicles = [join(ROOT, "examples"), join(ROOT, "tests/vehicles"),
  ...(other ? [other] : [])].flatMap(filesOf);

export const read = (path) => readFileSync(path, "utf8");

// A file without its link to the vehicle before, so that both look at one file.
export const alone = (path) => read(path).replace(/^before\s*=.*$/m, "");

// The same without what heat needs: neither side then runs a fade procedure.
export const cold = (path) => alone(path).replace(/^(rotor_mass|drum_mass)\s*=.*$/gm, "");

// The file of the vehicle as it was, where there is one beside it.
export function stockOf(path) {
  const family = /^[^-.]+/.exec(basename(path))[0];
  return ["before", "stock"].map((word) => join(dirname(path), `${family}-${word}.ini`))
    .find((file) => file !== path && existsSync(file));
}
