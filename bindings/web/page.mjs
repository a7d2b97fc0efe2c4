// The page: what is typed goes into the file's text, and everything shown is made from that.
import { answer, refusal } from "./answer.mjs";
import { openCore, unpacked } from "./core.mjs";
import { field, idOf, title, valueOf } from "./field.mjs";
import { get, given, lines, set } from "./file.mjs";
import { form, plan, startOf } from "./form.mjs";
import { Heat } from "./heat.mjs";
import { History, Store } from "./history.mjs";
import { apart } from "./value.mjs";

const at = (id) => document.getElementById(id);
const TRIED = ["front.tyre.marking", "front.tyre.rollout", "front.disc.pistons",
  "front.disc.effective_radius", "front.drum.cylinder_diameter", "front.drum.diameter",
  "rear.disc.pistons", "rear.disc.effective_radius", "rear.drum.cylinder_diameter",
  "rear.drum.diameter", "master.bore"];

const store = new Store(globalThis.localStorage);
const core = await openCore(await unpacked(at("core").textContent));
const catalogue = JSON.parse(core("catalogue"));
const rowOf = new Map(catalogue.quantities.map((row) => [`${row.section}.${row.name}`, row]));
const units = {};
let history = new History(store.kept("file"));
let stock = store.kept("stock");
let tried = "";

// ---- the answer --------------------------------------------------------------------------------

let cold;

function makeWorker() {
  const source = `${at("worker").textContent}
    const text = ${JSON.stringify(at("core").textContent.trim())};
    serve(self, unpacked(text), (told) => postMessage(told));`;
  const url = URL.createObjectURL(new Blob([source], { type: "text/javascript" }));
  return new Worker(url);
}

const heat = new Heat(makeWorker, (name, data) => {
  const found = data.text && JSON.parse(data.text);
  if (found && !found.refused) show(found, "");
  else show(cold, "failed");
});

function show(found, state) {
  at("answer").hidden = false;
  at("answer").innerHTML = `<p class="caution">${catalogue.caution_line}</p>${
    found.refused ? refusal(found.refused) : answer(found, state)}`;
}

// A refusal stands beside its field.
function mark(refused) {
  for (const node of document.querySelectorAll(".field")) {
    const said = refused && !refused.before && node.dataset.path === refused.field;
    const typed = node.querySelector("[data-part=whole], [data-part=number]");
    node.querySelector(".said").textContent = said && valueOf(node) !== "" ? refused.text : "";
    typed.setAttribute("aria-invalid", said && valueOf(node) !== "" ? "true" : "false");
  }
}

function workOut(text) {
  heat.stop();
  if (text.trim() === "") return;
  cold = JSON.parse(core("check", text, stock, 0));
  mark(cold.refused);
  show(cold, "waiting");
  if (!cold.refused) heat.ask("check", text, stock, 1);
}

// ---- the form ----------------------------------------------------------------------------------

const inInches = (text) => lines(text).some(({ value }) => /\bin\b|\blb\b/.test(value));

function unitOf(row) {
  return units[row.si] ?? (inInches(history.now) ? row.us : row.si);
}

function draw() {
  const text = history.now;
  const start = startOf(text, core, inInches(text));
  at("form").innerHTML = form(plan(text, start, catalogue), unitOf);
  at("changes").innerHTML = TRIED.filter((path) => given(get(text, path)))
    .map((path) => `<label>${title(path)} <input data-try="${path}" value=""></label>`).join("");
  for (const node of at("changes").querySelectorAll("input"))
    node.value = get(text, node.dataset.try);
  at("undo").disabled = !history.canUndo;
}

function keep(text) {
  history.add(text);
  at("undo").disabled = !history.canUndo;
  at("kept").textContent = store.keep("file", text) ? "Kept in this browser."
    : "This browser keeps nothing: save the file.";
  workOut(text);
}

function begin(text) {
  history = new History(text);
  keep(text);
  draw();
  workOut(text);
  view("measure");
}

at("form").addEventListener("change", ({ target }) => {
  const node = target.closest(".field");
  const row = rowOf.get(node.dataset.path);
  if (target.dataset.part === "unit") units[row.si] = target.value;
  keep(set(history.now, node.dataset.path, valueOf(node)));
  if (["front.axle.brake", "rear.axle.brake", "booster.booster"].includes(node.dataset.path)) {
    draw();
    at(idOf(node.dataset.path)).focus();
  }
});

// Leads to a field, and opens what it stands in.
function jump(path) {
  view("measure");
  const [row] = catalogue.quantities.filter((one) => `${one.section}.${one.name}` === path);
  if (row && !at(idOf(path)))
    at("form").insertAdjacentHTML("beforeend", field(row, path, "", unitOf(row)));
  const node = at(idOf(path));
  node?.closest("details")?.setAttribute("open", "");
  node?.focus();
  node?.scrollIntoView({ block: "center" });
}

at("answer").addEventListener("click", ({ target }) => {
  if (target.dataset.jump) jump(target.dataset.jump);
  if (target.dataset.heat === "again") workOut(tried || history.now);
  if (target.dataset.heat !== "stop") return;
  heat.stop();
  show(cold, "stopped");
});

at("undo").addEventListener("click", () => {
  const text = history.undo();
  store.keep("file", text);
  draw();
  workOut(text);
});

// ---- trying ------------------------------------------------------------------------------------

at("changes").addEventListener("change", () => {
  tried = history.now;
  for (const node of at("changes").querySelectorAll("input"))
    if (node.value.trim() !== get(history.now, node.dataset.try))
      tried = set(tried, node.dataset.try, node.value.trim());
  workOut(tried);
  at("curve").innerHTML = core("pedal", tried);
});

function stopTrying() {
  tried = "";
  draw();
  at("curve").innerHTML = "";
}

at("keep").addEventListener("click", () => {
  if (tried) keep(tried);
  stopTrying();
});

at("back").addEventListener("click", () => {
  stopTrying();
  workOut(history.now);
});

// ---- paper -------------------------------------------------------------------------------------

const paper = new Heat(makeWorker, (name, data) => {
  const refused = data.text?.startsWith("{") && JSON.parse(data.text).refused;
  const whole = data.text && !refused;
  at("paper-said").textContent = refused ? refused.text : (data.failed ?? "");
  at("sheet").hidden = at("print").hidden = !whole;
  if (whole) at("sheet").srcdoc = data.text;
});

function ask(name, ...words) {
  at("paper-said").textContent = "Being worked out.";
  at("sheet").hidden = at("print").hidden = true;
  paper.ask(name, history.now, ...words);
}

const today = () => new Date().toLocaleDateString("sv");
const WORDS = { report: () => [stock, today()], plan: () => [], check_page: () => [stock] };

at("paper").addEventListener("click", ({ target }) => {
  const name = target.dataset.paper;
  if (name) ask(name, ...WORDS[name]());
});
at("print").addEventListener("click", () => at("sheet").contentWindow.print());
at("log").addEventListener("change", async ({ target }) => ask("drive", await target.files[0].text()));
at("paper").addEventListener("dragover", (event) => event.preventDefault());
at("paper").addEventListener("drop", async (event) => {
  event.preventDefault();
  ask("drive", await event.dataTransfer.files[0].text());
});

// ---- files and views ---------------------------------------------------------------------------

function view(name) {
  for (const id of ["begin", "measure", "try", "paper"]) at(id).hidden = id !== name;
  for (const button of document.querySelectorAll("[data-view]"))
    button.setAttribute("aria-pressed", String(button.dataset.view === name));
}

document.querySelector("nav").addEventListener("click", ({ target }) => {
  if (target.dataset.view) view(target.dataset.view);
  if (target.dataset.view === "try") at("curve").innerHTML = core("pedal", history.now);
});

at("kind").addEventListener("submit", (event) => {
  event.preventDefault();
  const of = new FormData(event.target);
  const number = (name) => Number(of.get(name));
  begin(core("start", number("front"), number("rear"), number("assist"), of.get("use"),
    of.get("country"), number("us")));
});
at("open").addEventListener("change", async ({ target }) => begin(await target.files[0].text()));
at("stock").addEventListener("change", async ({ target }) => {
  stock = await target.files[0].text();
  store.keep("stock", stock);
  at("stock-said").textContent = `${target.files[0].name} is kept beside.`;
  workOut(history.now);
});
at("save").addEventListener("click", () => {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([history.now], { type: "text/plain" }));
  link.download = "vehicle.ini";
  link.click();
});

at("caution").textContent = catalogue.caution_line;
at("caution-long").textContent = catalogue.caution;
if (history.now) begin(history.now);
document.body.dataset.ready = "yes";
