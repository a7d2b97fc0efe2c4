// SPDX-License-Identifier: MIT
// The form: the sections that this vehicle has, in the order of the catalogue.
import { drawing } from "./drawings.mjs";
import { field } from "./field.mjs";
import { get, given, lines, split } from "./file.mjs";
import { safe, title } from "./words.mjs";

// What the kind of the vehicle asks for: the file that one would start from.
export function startOf(text, core, us) {
  const brake = (axle) => (get(text, `${axle}.axle.brake`)?.startsWith("drum") ? 1 : 0);
  const assist = get(text, "booster.booster")?.startsWith("none") ? 0
    : given(get(text, "booster.assist")) ? 2 : 1;
  return core("start", brake("front"), brake("rear"), assist, "private", "", us ? 1 : 0);
}

// The section of the catalogue that a section of a file is one of: [part.winch] is a part.
export const kindOf = (section) => (section.startsWith("part.") ? "part" : section);

// The row of a line, or none.
export function rowOf(catalogue, path) {
  const [section, name] = split(path);
  return catalogue.quantities.find((row) => row.section === kindOf(section) && row.name === name);
}

// Sections of a text, parts by their names.
const namesOf = (paths, path) =>
  path !== "part" ? [path]
    : [...new Set(paths.map((one) => split(one)[0]).filter((one) => kindOf(one) === "part"))];

// The sections with their lines: asked for, given, and the others. `wanted`: sections to show
// besides.
export function plan(text, start, catalogue, wanted = []) {
  const asked = new Set(lines(start).map((line) => line.path));
  const values = new Map(lines(text).map((line) => [line.path, line.value]));
  const paths = [...asked, ...values.keys(), ...wanted.map((section) => `${section}.`)];
  return catalogue.sections
    .flatMap((section) => namesOf(paths, section.path).map((path) => ({ ...section, path })))
    .filter(({ path }) => paths.some((one) => split(one)[0] === path))
    .map((section) => ({
      ...section,
      rows: catalogue.quantities
        .filter((row) => row.section === kindOf(section.path))
        .map((row) => {
          const path = `${section.path}.${row.name}`;
          const whole = wanted.includes(section.path) || kindOf(section.path) === "part";
          return { row, path, value: values.get(path) ?? "",
            first: whole || asked.has(path) || values.has(path) };
        }),
    }));
}

// Sections that the vehicle could have besides those shown.
export function others(sections, catalogue, text) {
  const there = new Set(sections.map(({ path }) => path));
  const has = (belongs) => {
    const [axle, brake] = belongs.split(" ");
    return belongs === "" || get(text, `${axle}.axle.brake`)?.startsWith(brake);
  };
  return catalogue.sections
    .filter(({ path, belongs }) => !there.has(path) && path !== "part" && has(belongs));
}

const HEADINGS = { vehicle: "The vehicle", scales: "On the scales", tester: "On the tester",
  tilt: "Tilted-axle test" };
export const heading = (path) => HEADINGS[path] ?? title(path);

const plain = (path) => path.replaceAll(".", "-");

function part({ path, meaning, rows }, open, unitOf) {
  const one = ({ row, path: line, value }) =>
    field(row, line, given(value) ? value : "", unitOf(row));
  const first = rows.filter((row) => row.first);
  const rest = rows.filter((row) => !row.first);
  const filled = first.filter(({ value }) => given(value)).length;
  return `<details class="part" data-section="${path}"${open ? " open" : ""}>
    <summary id="part-${plain(path)}"><h2>${safe(heading(path))}</h2>
    <span class="count">${filled} of ${first.length} given</span></summary>
    <p>${meaning}</p>${drawing(path)}${first.map(one).join("")}
    ${rest.length ? `<details class="rest"><summary>${rest.length} more lines</summary>${
      rest.map(one).join("")}</details>` : ""}</details>`;
}

// `open`: the sections that stand open; `unitOf` gives the unit that was used last for such a row.
export function form(sections, open, unitOf) {
  return sections.map((section) => part(section, open.has(section.path), unitOf)).join("");
}

// What may be added to the form.
export function additions(sections) {
  return `<details class="part more"><summary><h2>Something else</h2></summary>
    <p>A part fitted or taken off since the weighing</p>
    <p class="amount"><input id="part-name" aria-label="Name of the part" autocomplete="off"
      placeholder="winch"> <button type="button" data-add="part">Add</button></p>
    <p class="tools">${sections.map(({ path, meaning }) => `<button type="button" data-add="${path}"
      title="${safe(meaning)}">${safe(heading(path))}</button>`).join(" ")}</p></details>`;
}
