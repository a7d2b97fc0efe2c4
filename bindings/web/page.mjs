// SPDX-License-Identifier: MIT
// The page: what is typed goes into the file's text, and everything shown is made from that.
import { answer, refusal } from "./answer.mjs";
import { openCore, unpacked } from "./core.mjs";
import { field, idOf, valueOf } from "./field.mjs";
import { get, given, inInches, set, split } from "./file.mjs";
import { additions, form, others, plan, rowOf, startOf } from "./form.mjs";
import { Heat } from "./heat.mjs";
import { History, Store } from "./history.mjs";
import { kindOfFile, obstacles, outcome } from "./papers.mjs";
import { changesOf, trials, tried } from "./trial.mjs";
import { apart } from "./value.mjs";
import { fileName } from "./words.mjs";

const at = (id) => document.getElementById(id);
const all = (selector) => [...document.querySelectorAll(selector)];

const store = new Store(() => globalThis.localStorage);
const module = await unpacked(at("core").textContent);
const core = await openCore(module);
const catalogue = JSON.parse(core("catalogue"));
const units = JSON.parse(store.kept("units") || "{}");
const history = new History(store.kept("file"));
let stock = store.kept("stock");
// The log of a drive that was opened, and what it is called.
let log = { text: store.kept("log"), called: store.kept("log-called") };
// What is being tried instead of the file, or nothing.
let trial = "";
const opened = new Set(["vehicle"]);
const wanted = [];

const titles = new Map(catalogue.requirements.map(({ id, title: text }) => [id, text]));
const isLine = (path) => Boolean(whole(path));
// "axle.brake" in a sentence is that of both axles.
const whole = (path) => [path, `front.${path}`].find((one) => rowOf(catalogue, one));

// ---- the answer --------------------------------------------------------------------------------

let cold;

const worker = URL.createObjectURL(new Blob([`${at("worker").textContent}
  serve(self, (told) => postMessage(told));`], { type: "text/javascript" }));
const makeWorker = () => new Worker(worker);

const heat = new Heat(module, makeWorker, (name, data) => {
  const found = data.text && JSON.parse(data.text);
  if (found && !found.refused) show(found, "");
  else show(cold, "failed");
});

function show(found, state) {
  const how = { heat: state, isLine, titles, stock: stock !== "",
    named: named("vehicle.before"), driven: drive() ? "" : named("drive.log"),
    tried: trial !== "" };
  at("answer").innerHTML = found.refused ? refusal(found.refused, isLine) : answer(found, how);
  at("whole").hidden = Boolean(found.refused);
  at("told").textContent = document.querySelector("#answer .verdict")?.textContent ?? "";
}

at("whole").addEventListener("click", ({ target }) => {
  const all = target.getAttribute("aria-expanded") !== "true";
  target.setAttribute("aria-expanded", String(all));
  target.textContent = all ? "Verdict only" : "Whole answer";
});

function named(path) {
  const value = get(history.now, path);
  return given(value) ? value : "";
}

// A drive counts when the file names one.
const drive = () => (named("drive.log") ? log.text : "");

// A refusal stands beside its field.
function mark(refused) {
  for (const node of all(".field")) {
    const typed = node.querySelector("[data-part=whole], [data-part=number]");
    const said = refused && !refused.before && node.dataset.path === refused.field &&
      typed.value !== "";
    node.querySelector(".said").textContent = said ? refused.text : "";
    typed.setAttribute("aria-invalid", said ? "true" : "false");
  }
}

function workOut() {
  const text = trial || history.now;
  heat.stop();
  if (text.trim() === "") return;
  cold = JSON.parse(core("check", text, stock, 0, drive()));
  mark(cold.refused);
  show(cold, "waiting");
  if (!cold.refused) heat.ask("check", text, stock, 1, drive());
}

// ---- the form ----------------------------------------------------------------------------------

const unitOf = (row) => units[row.si] ?? (inInches(history.now) ? row.us : row.si);

function draw() {
  const text = history.now;
  const sections = plan(text, startOf(text, core, inInches(text)), catalogue, wanted);
  at("form").innerHTML =
    form(sections, opened, unitOf) + additions(others(sections, catalogue, text));
  at("undo").disabled = !history.canUndo;
  mark(cold?.refused);
}

function keep(text) {
  history.add(text);
  at("undo").disabled = !history.canUndo;
  at("kept").textContent = store.keep("file", text) ? "Kept in this browser."
    : "This browser keeps nothing: save the file.";
  workOut();
}

// What is being typed counts as typed, into the file that is open.
const settle = () => document.activeElement.blur();

// The file that was open is one step back.
function begin(text) {
  settle();
  trial = "";
  keep(text);
  draw();
  view("measure");
}

// What was typed in a field goes into the file; one that takes it apart otherwise is drawn anew.
function enter(node) {
  const { path } = node.dataset;
  const value = valueOf(node);
  keep(set(history.now, path, value));
  const { number } = apart(value);
  const typed = node.querySelector("[data-part=number]");
  node.querySelector(".sure")?.toggleAttribute("hidden", number === "");
  if (typed && typed.value !== number)
    node.outerHTML = field(rowOf(catalogue, path), path, value, unitOf(rowOf(catalogue, path)));
}

at("form").addEventListener("change", ({ target }) => {
  const node = target.closest(".field");
  if (!node) return;
  const { path } = node.dataset;
  if (target.dataset.part === "unit") {
    units[rowOf(catalogue, path).si] = target.value;
    store.keep("units", JSON.stringify(units));
  }
  enter(node);
  if (["front.axle.brake", "rear.axle.brake", "booster.booster"].includes(path)) {
    draw();
    at(idOf(path)).focus();
  }
});

// One tap says it, another takes it back.
function tap(button) {
  const pressed = button.getAttribute("aria-pressed") === "true";
  for (const one of button.parentElement.querySelectorAll("button"))
    one.setAttribute("aria-pressed", String(one === button && !pressed));
  enter(button.closest(".field"));
}

function add(section) {
  const name = at("part-name").value.trim().toLowerCase().replace(/[^a-z0-9]+/g, "_");
  if (section === "part" && name === "") return at("part-name").focus();
  const path = section === "part" ? `part.${name}` : section;
  wanted.push(path);
  opened.add(path);
  draw();
  document.querySelector(`[data-section="${path}"] input, [data-section="${path}"] select`).focus();
}

at("form").addEventListener("click", ({ target }) => {
  if (target.hasAttribute("aria-pressed")) tap(target);
  if (target.dataset.add) add(target.dataset.add);
});

at("form").addEventListener("input", ({ target }) => {
  const sure = target.closest(".field")?.querySelector(".sure");
  if (target.dataset.part === "number") sure.toggleAttribute("hidden", target.value.trim() === "");
});

at("form").addEventListener("toggle", ({ target }) => {
  if (target.dataset.section) opened[target.open ? "add" : "delete"](target.dataset.section);
}, true);

// Leads to a field, and opens what it stands in.
function jump(told) {
  const path = whole(told);
  view("measure");
  if (!at(idOf(path))) {
    wanted.push(split(path)[0]);
    draw();
  }
  const node = at(idOf(path));
  for (let one = node; one; one = one.parentElement)
    if (one.localName === "details") one.open = true;
  node.focus();
  node.scrollIntoView({ block: "center" });
}

const DO = {
  stock: () => at("stock").click(),
  log: () => at("log").click(),
  all: () => {
    view("paper");
    ask("check_page");
  },
};

at("answer").addEventListener("click", ({ target }) => {
  if (target.dataset.jump) jump(target.dataset.jump);
  if (target.dataset.do) DO[target.dataset.do]();
  if (target.dataset.heat === "again") workOut();
  if (target.dataset.heat !== "stop") return;
  heat.stop();
  show(cold, "stopped");
});

at("undo").addEventListener("click", () => {
  settle();
  store.keep("file", history.undo());
  draw();
  workOut();
});

// ---- trying ------------------------------------------------------------------------------------

function tryAgain() {
  at("changes").innerHTML = trials(history.now, (path) => rowOf(catalogue, path), unitOf);
  at("curve").innerHTML = history.now && core("pedal", history.now);
}

at("changes").addEventListener("change", () => {
  const changes = changesOf(history.now, all("[data-try]"));
  trial = changes.size ? tried(history.now, changes) : "";
  workOut();
  at("curve").innerHTML = core("pedal", trial || history.now);
});

function endTrial(text) {
  trial = "";
  if (text) keep(text);
  else workOut();
  draw();
  tryAgain();
}

at("keep").addEventListener("click", () => endTrial(trial));
at("back").addEventListener("click", () => endTrial(""));

// ---- paper -------------------------------------------------------------------------------------

let sheet = { name: "", text: "" };

const paper = new Heat(module, makeWorker, (name, data) => {
  const found = outcome(data);
  sheet = { name, text: found.paper ?? "" };
  at("paper-said").textContent = found.said;
  at("sheet").hidden = at("sheet-tools").hidden = !found.paper;
  at("despite").hidden = !found.obstacles;
  at("despite").innerHTML = found.obstacles ? obstacles(found.obstacles) : "";
  at("count").hidden = !found.paper || name !== "drive" || named("drive.log") === log.called;
  at("sheet").srcdoc = sheet.text;
});

const today = () => new Date().toLocaleDateString("sv"); // as ISO 8601, of the place
const WORDS = { report: () => [stock, today(), drive()],
  plan: (despite = "") => [despite, drive()], check_page: () => [stock, drive()],
  drive: () => [log.text] };

function ask(name, ...words) {
  at("paper-said").textContent = "Being worked out.";
  at("sheet").hidden = at("sheet-tools").hidden = at("despite").hidden = at("count").hidden = true;
  paper.ask(name, history.now, ...WORDS[name](...words));
}

at("paper").addEventListener("click", ({ target }) => {
  if (target.dataset.paper) ask(target.dataset.paper);
});
at("despite").addEventListener("submit", (event) => {
  event.preventDefault();
  ask("plan", new FormData(event.target).getAll("despite").join(","));
});
at("print").addEventListener("click", () => at("sheet").contentWindow.print());

// ---- files and views ---------------------------------------------------------------------------

function view(name) {
  for (const id of ["begin", "measure", "try", "paper"]) at(id).hidden = id !== name;
  for (const button of all("[data-view]"))
    button.setAttribute("aria-pressed", String(button.dataset.view === name));
  if (name === "try" && !trial) tryAgain();
}

document.querySelector("nav").addEventListener("click", ({ target }) => {
  if (target.dataset.view) view(target.dataset.view);
});

at("kind").addEventListener("submit", (event) => {
  event.preventDefault();
  const of = new FormData(event.target);
  const number = (name) => Number(of.get(name));
  begin(core("start", number("front"), number("rear"), number("assist"), of.get("use"),
    of.get("country"), number("us")));
});

// A vehicle, or the log of a drive.
async function open(file) {
  const text = await file.text();
  if (kindOfFile(file.name, text) === "vehicle") begin(text);
  else keepLog(text, file.name);
}

function keepLog(text, called) {
  log = { text, called };
  store.keep("log", text);
  store.keep("log-called", called);
  view("paper");
  if (named("drive.log")) count();
  ask("drive");
}

// From now on every answer is what the drive makes likely.
function count() {
  keep(set(history.now, "drive.log", log.called));
  draw();
}

at("count").addEventListener("click", ({ target }) => {
  count();
  target.hidden = true;
});

function keepStock(text, called) {
  stock = text;
  store.keep("stock", text);
  store.keep("stock-called", called);
  sayStock(called);
  workOut();
}

function sayStock(called) {
  at("stock-away").hidden = stock === "";
  at("stock-said").textContent = stock && `${called || "The vehicle as it was"} is kept beside.`;
}

// The same file may be opened twice.
function opens(id, take) {
  at(id).addEventListener("change", async ({ target }) => {
    const [file] = target.files;
    if (file) await take(file);
    target.value = "";
  });
}

opens("open", open);
opens("log", open);
opens("stock", async (file) => keepStock(await file.text(), file.name));
at("stock-away").addEventListener("click", () => keepStock("", ""));
document.addEventListener("dragover", (event) => event.preventDefault());
document.addEventListener("drop", (event) => {
  event.preventDefault();
  if (event.dataTransfer.files.length) open(event.dataTransfer.files[0]);
});

function save(text, type, name) {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([text], { type }));
  link.download = name;
  link.click();
}

const called = () => get(history.now, "vehicle.name");
const SAVE = {
  file: () => save(history.now, "text/plain", fileName(called(), "ini")),
  sheet: () => save(sheet.text, "text/html", fileName(`${called()} ${sheet.name}`, "html")),
};
document.querySelector("main")
  .addEventListener("click", ({ target }) => SAVE[target.dataset.save]?.());

at("caution").textContent = catalogue.caution_line;
at("caution-long").textContent = catalogue.caution;
at("country").innerHTML = rowOf(catalogue, "vehicle.country").choices.split(" ")
  .map((word) => `<option value="${word}">${word === "unstated" ? "not said" : word}`).join("");
sayStock(store.kept("stock-called"));
at("answer").textContent = "Begin below: the answer stands here, and changes as you fill in.";
if (history.now) begin(history.now);
at("asleep").hidden = true;
document.querySelector("nav").hidden = document.querySelector("main").hidden = false;
document.body.dataset.ready = "yes";
