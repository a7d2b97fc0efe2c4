// The form: the sections that this vehicle has, in the order of the catalogue.
import { drawing } from "./drawings.mjs";
import { field } from "./field.mjs";
import { get, given, lines } from "./file.mjs";

// What the kind of the vehicle asks for: the file that one would start from.
export function startOf(text, core, us) {
  const brake = (axle) => (get(text, `${axle}.axle.brake`)?.startsWith("drum") ? 1 : 0);
  const assist = get(text, "booster.booster")?.startsWith("none") ? 0
    : given(get(text, "booster.assist")) ? 2 : 1;
  return core("start", brake("front"), brake("rear"), assist, "private", "", us ? 1 : 0);
}

// The sections with their lines: asked for, given, and the others.
export function plan(text, start, catalogue) {
  const asked = new Set(lines(start).map((line) => line.path));
  const values = new Map(lines(text).map((line) => [line.path, line.value]));
  const paths = [...new Set([...asked, ...values.keys()])];
  return catalogue.sections
    .filter(({ path }) => path !== "part" && paths.some((one) => one.startsWith(`${path}.`)))
    .map((section) => ({
      ...section,
      rows: catalogue.quantities
        .filter((row) => row.section === section.path)
        .map((row) => {
          const path = `${section.path}.${row.name}`;
          return { row, path, value: values.get(path) ?? "", first: asked.has(path) || values.has(path) };
        }),
    }))
    .filter(({ rows }) => rows.some(({ first }) => first));
}

const HEADINGS = { vehicle: "The vehicle", scales: "On the scales", tester: "On the tester" };
const heading = (path) => {
  const text = HEADINGS[path] ?? path.replaceAll(".", " ");
  return text[0].toUpperCase() + text.slice(1);
};

// `unitOf` gives the unit that was used last for such a row.
export function form(sections, unitOf) {
  const one = ({ row, path, value }) =>
    field(row, path, given(value) ? value : "", unitOf(row));
  return sections
    .map(({ path, meaning, rows }) => {
      const rest = rows.filter(({ first }) => !first);
      return `<section aria-labelledby="part-${path}"><h2 id="part-${path}">${heading(path)}</h2>
        <p>${meaning}</p>${drawing(path)}${rows.filter(({ first }) => first).map(one).join("")}
        ${rest.length ? `<details class="rest"><summary>${rest.length} more lines</summary>${
          rest.map(one).join("")}</details>` : ""}</section>`;
    })
    .join("");
}
