// SPDX-License-Identifier: MIT
// The text of a vehicle file: its lines are read and set in place, comments stay.

const HEAD = /^\s*\[\s*([^\]]+?)\s*\]/;
const LINE = /^(\s*)([a-z_0-9]+)(\s*=\s*)(.*?)(\s*(?:\s[;#].*)?)$/i;

export const split = (path) => {
  const dot = path.lastIndexOf(".");
  return [path.slice(0, dot), path.slice(dot + 1)];
};

// Every line: its path, its value as written, and where it stands.
export function lines(text) {
  let section = "";
  const found = [];
  text.split("\n").forEach((raw, at) => {
    const head = HEAD.exec(raw);
    const line = LINE.exec(raw);
    if (head) section = head[1].toLowerCase();
    else if (line && !/^\s*[;#]/.test(raw))
      found.push({ path: `${section}.${line[2].toLowerCase()}`, value: line[4].trim(), at });
  });
  return found;
}

export const given = (value) => value !== undefined && value !== "" && !value.startsWith("...");

export function get(text, path) {
  return lines(text).find((line) => line.path === path)?.value;
}

function insert(rows, section, line) {
  let last = -1;
  let inside = false;
  rows.forEach((raw, at) => {
    const head = HEAD.exec(raw);
    if (head) inside = head[1].toLowerCase() === section;
    if (inside && raw.trim() !== "") last = at;
  });
  if (last < 0) rows.push(`[${section}]`, line);
  else rows.splice(last + 1, 0, line);
}

// A comment stays in its column as far as there is room.
function behind(words, were, after) {
  const column = were.length + after.length - after.trimStart().length;
  return after === "" ? words : `${words.padEnd(column - 1)} ${after.trimStart()}`;
}

// The text with one line set; an empty value leaves dots, which count as left out.
export function set(text, path, value) {
  const rows = text.replace(/\n+$/, "").split("\n");
  const [section, own] = split(path);
  const line = lines(text).find((one) => one.path === path);
  const words = value === "" ? "..." : value;
  if (line) {
    const [, before, , equals, , after] = LINE.exec(rows[line.at]);
    const name = rows[line.at].trim().split(/[\s=]/)[0];
    rows[line.at] = `${before}${name}${equals}${behind(words, line.value, after)}`;
  } else if (value !== "") {
    insert(rows, section, `${own} = ${words}`);
  }
  return `${rows.join("\n")}\n`;
}

// Whether a file is in the units of the US, those of its dots too.
export const inInches = (text) =>
  lines(text).some(({ value }) => /(?:\d|\.\.\.)\s*(?:in|lb|lbf|ft)\b/.test(value));
