// SPDX-License-Identifier: GPL-3.0-or-later
// The page: the scenario's text is what is true, the questions are a way to write
// it, the engine in a worker is what answers.
import { press } from "./browser.js";
import { comparison, figures } from "./compare.js";
import { curve } from "./curve.js";
import { bytesOf64, Engine, KEEPS, which } from "./engine.js";
import { about, addable, Form, make } from "./form.js";
import { PARTS } from "./questions.js";
import { blobOf, showReport } from "./result.js";
import { add, addRow, count, drop, dropRow, get, lines, read, rowAt, set, unset } from "./yaml.js";

const MOST = 64 * 2 ** 20; // bytes of a file, before it is read
const MOST_TEXT = 2 ** 20; // of a scenario
const NAME = "house.yaml";
const $ = (id) => document.getElementById(id);
const data = (id) => $(id)?.textContent ?? "";

const START = PARTS.filter(([name]) => name !== "dehumidifier")
  .reduce((text, [, words]) => add(text, words), "title: My house\n");

const app = { text: START, files: {}, si: false, hints: new Map(), places: new Map(), like: new Map(),
  before: [], after: [], asked: false, run: 0 };
let engine, form;

// ---- the text ----------------------------------------------------------------

// Another text: what was being typed into the one before is gone.
function stand(state) {
  Object.assign(app, state);
  form.typing = undefined;
}

function change(text, keep = true) {
  if (text === app.text) return;
  if (keep) app.before.push({ text: app.text, files: app.files });
  app.after = [];
  stand({ text });
  if (app.asked) work(); // it marches while the page shows what was typed
  show();
}

// A change that the text may be too odd for is not made, and said.
function tried(how) {
  try {
    change(how());
  } catch (error) {
    say(`This can only be changed in the text: ${error.message}.`);
    $("ui-text").open = true;
  }
}

app.edit = (path, words) => tried(() => {
  const out = words === "" ? unset(app.text, path) : set(app.text, path, words);
  const key = path.join(".");

  if (words !== "" && key === "weather.place") return unset(out, ["weather", "file"]);
  return words !== "" && key === "weather.file" ? unset(out, ["weather", "place"]) : out;
});

const namesOf = () => Array.from({ length: count(app.text, ["options"]) }, (_, i) =>
  get(app.text, ["options", i, "name"]));

function free(name) {
  let said = name;
  for (let i = 2; namesOf().includes(said); i++) said = `${name} ${i}`;
  return said;
}

// The last option under a name of its own.
function renamed(text, name) {
  return set(text, ["options", count(text, ["options"]) - 1, "name"], name);
}

app.add = (name, words) => tried(() => renamed(add(app.text, words), free(name)));
app.copy = (index) => tried(() => renamed(add(app.text, lines(app.text, index)), free(namesOf()[index])));
app.addRow = (path, words) => tried(() => addRow(app.text, path, words));
app.dropRow = (path, index) => tried(() => dropRow(app.text, path, index));
app.drop = (index) => tried(() => drop(app.text, index));

// Six marches of one option, into its card; houses like it march on meanwhile.
app.curve = async (index, place) => {
  if (engine.now.busy) stop();
  const run = app.run, name = namesOf()[index];
  let done = 0;
  const ask = (words) => {
    progress(done++ / 6);
    return engine.now.call(["run", NAME, ...words, ...KEEPS], inputs(), { folder: "set/" });
  };

  say(`"${name}" at six airflows...`, true);
  try {
    await engine.ready;
    place.replaceChildren(await curve(name, app.si, ask, (flow) =>
      app.edit(["options", index, "ventilator", "flow"], flow)));
    if (run === app.run) say("The curve stands in its card.", engine.later.busy);
  } catch (error) {
    if (run === app.run) say(`No curve: ${error.message}`, engine.later.busy);
  }
};

app.place = (typed) => {
  const words = typed.trim();
  return [...app.places].find(([, name]) => name === words)?.[0] ?? words;
};
app.placed = (words) => app.places.get(words) ?? words;

function turn(from, to) {
  if (from.length === 0) return;
  to.push({ text: app.text, files: app.files });
  stand(from.pop());
  show();
  if (app.asked) work();
}

// ---- what is seen ----------------------------------------------------------------

function show() {
  let odd = "";

  try {
    read(app.text);
    form.showAll();
  } catch (error) {
    odd = error.message;
  }
  $("ui-form").hidden = odd !== "";
  $("ui-odd").hidden = odd === "";
  $("ui-odd").textContent = odd === "" ? "" :
    `This scenario is written in a way that the questions cannot show (${odd}). Change its text: the engine reads all of it.`;
  if (odd !== "") $("ui-text").open = true;
  $("ui-yaml").value = app.text;
  $("ui-undo").disabled = app.before.length === 0;
  $("ui-redo").disabled = app.after.length === 0;
  for (const button of document.querySelectorAll("#ui-units button"))
    button.setAttribute("aria-pressed", String((button.value === "si") === app.si));
}

function say(words, alive = false) {
  $("ui-status").textContent = words;
  $("ui-stop").hidden = !alive;
  if (!alive) $("ui-bar").hidden = true;
}

function progress(done) {
  $("ui-bar").hidden = false;
  $("ui-bar").value = done;
}

// ---- faults ----------------------------------------------------------------------

const FAULT = /^dewledger: (?:([^\s:]+)(?::(\d+):(?:(\d+):)?|:) )?(.*)$/;
const KEYED = /^((?:options\..*?\.)?[a-z_]+(?:\.[a-z_]+)*): (.*)$/;

// options.NAME.key with whatever is in NAME.
function pathOf(key) {
  if (!key.startsWith("options.")) return key.split(".");
  const index = namesOf().findIndex((name) => key.startsWith(`options.${name}.`));
  return index < 0 ? ["options"] : ["options", index,
    ...key.slice(`options.${namesOf()[index]}.`.length).split(".")];
}

// A column of a list is that of the row where the message points.
function rowed(path, at, column) {
  const list = path.slice(0, -1);
  const row = column === undefined || count(app.text, list) === 0 ? -1 : rowAt(app.text, list, +at, +column);

  return row < 0 ? path : [...list, String(row), path.at(-1)];
}

// One message as { path, key, says, at }: in the scenario, or in a file of it.
function faultOf(line) {
  const [, file, at, column, words] = FAULT.exec(line);
  const whole = line.replace(/^dewledger: /, "");

  if (app.files[file] !== undefined)
    return { path: get(app.text, ["log", "file"]) === file ? ["log", "file"] : ["weather", "file"], says: whole };
  const found = KEYED.exec(file === NAME ? words : whole);
  return found === null ? { path: [], says: file === NAME ? words : whole, at }
    : { path: rowed(pathOf(found[1]), at, column), key: found[1], says: found[2], at };
}

function faultsOf(err) {
  return err.split("\n").filter((line) => line.startsWith("dewledger: ") && !line.startsWith("dewledger: note:"))
    .map(faultOf);
}

// The command's own words: beside its field, and all of them above the answer.
function showFaults(list) {
  const box = $("ui-faults");
  let shown = list;

  try {
    form.faults(list);
  } catch {
    shown = list; // a text that the questions cannot show
  }
  box.hidden = list.length === 0;
  box.replaceChildren(make("h2", {}, list.length === 1 ? "To put right" : `${list.length} things to put right`),
    make("ul", {}, ...shown.map((one) => make("li", {}, ...inWords(one)))));
}

function inWords(one) {
  const where = one.key === undefined ? "" : `${one.key}: `;
  const line = one.at === undefined ? "" : ` (line ${one.at} of the text)`;

  if (one.field === undefined) return [where + one.says + line];
  return [make("a", { href: `#${one.field.id}`, onclick: (event) => {
    event.preventDefault();
    one.field.input.focus();
  } }, one.field.row.label), `: ${one.says}`];
}

// ---- the answer ----------------------------------------------------------------

const inputs = () => ({ ...app.files, [NAME]: app.text });
const units = () => (app.chosen ? ["--units", app.si ? "si" : "us"] : []);

function old(is) {
  $("ui-told").classList.toggle("old", is);
  $("ui-told").setAttribute("aria-busy", String(is));
}

function stop() {
  app.run += 1;
  engine.now.busy && engine.now.halt();
  engine.later.busy && engine.later.halt();
}

// When what stands was drawn; a page that is not in sight draws nothing.
const seen = () => new Promise((yes) => {
  requestAnimationFrame(() => setTimeout(yes));
  setTimeout(yes, 300);
});

// The report alone is asked for at once; all files are when one is to be kept.
const words = (asked, more) => ["run", NAME, "--out", "set", ...more, ...asked.units, ...KEEPS];

// ---- two workers for the first answer ---------------------------------------------

const LEAST_SHARED = 4; // options
const LEAST_PROCESSORS = 3; // the browser makes fast code of the module on one of them

// Each with the house and all.
const optionsOf = (text) => {
  const house = unset(text, ["options"]);
  return Array.from({ length: count(text, ["options"]) }, (_, i) => `${house}\0${lines(text, i)}`);
};

// Those of the answer that stands.
function worked() {
  try {
    return new Set(app.stood === undefined ? [] : optionsOf(app.stood.files[NAME]));
  } catch {
    return new Set(); // written in another way
  }
}

const without = (text, which) => which.reduceRight((rest, i) => drop(rest, i), text);

// The text with every other option that is still to be marched, and with the others
// of them; nothing where one worker does as well.
function parted(text) {
  try {
    const old = worked();
    const fresh = [...optionsOf(text).entries()].filter(([, one]) => !old.has(one)).map(([i]) => i);

    return fresh.length < LEAST_SHARED ? []
      : [0, 1].map((part) => without(text, fresh.filter((_, k) => k % 2 !== part)));
  } catch {
    return []; // written in another way
  }
}

// Each worker marches its part; what houses came to is kept, and the first, which
// writes the answer, finds it.  It marches what the other could not.
async function marched(parts, asked) {
  const far = [0, 0], begun = performance.now();
  const march = (lane, k) => lane.call(["run", NAME, "--quick", ...asked.units, ...KEEPS],
    { ...asked.files, [NAME]: parts[k] }, { long: true, helps: engine.now, holds: k === 0, progress: (done) => {
      far[k] = done;
      progress((far[0] + far[1]) / 2);
    } });

  await Promise.all([march(engine.now, 0), march(engine.later, 1).catch(() => {})]);
  return performance.now() - begun;
}

function likely(asked, run) {
  const parts = navigator.hardwareConcurrency >= LEAST_PROCESSORS ? parted(asked.files[NAME]) : [];
  const whole = (more) => engine.now.call(words(asked, ["--quick", "--few"]), asked.files, { folder: "set/", ...more });

  if (parts.length === 0) return whole({ progress }); // at once
  return marched(parts, asked).then(async (ms) => {
    if (run !== app.run) return undefined;
    const answer = await whole({});
    return { ...answer, ms: answer.ms + ms };
  });
}

// A change is being typed: a worker that ran nothing yet tells once more what
// stands, which takes a quarter of a second, and is the faster for it.
function expect() {
  if (engine.now.cold && engine.stands)
    engine.now.call(words(app.stood, ["--quick", "--few"]), app.stood.files, { holds: true }).catch(() => {});
  else engine.now.prepare();
}

// Before houses like it march, ms: what stood before is swept, and a change that
// comes at once has the processors.
const BREATH = 400;

// At once the likely house, then houses like it, which sharpen what stands.
async function work() {
  stop();
  const run = app.run, begun = performance.now();
  app.asked = true;
  old(true);
  delete $("ui-told").dataset.told;
  say("Working out the year of each option...", true);
  try {
    const asked = { files: inputs(), units: units() };
    app.first = engine.module !== undefined ? likely(asked, run)
      : engine.ready.then(() => run !== app.run ? undefined : likely(asked, run));
    const first = await app.first;
    if (run !== app.run) return;
    if (first.code === 0) app.stood = asked;
    take(first, begun, "likely", () => engine.now.call(words(asked, ["--quick"]), asked.files, { folder: "set/" }));
    if (first.code !== 0) return;
    await seen();
    if (run !== app.run) return;
    progress(0);
    say("This is the likely house. Houses like yours are being worked out, for how sure it is...", true);
    press();
    await new Promise((yes) => setTimeout(yes, BREATH));
    if (run !== app.run) return;
    const all = await engine.later.call(words(asked, ["--few"]), asked.files, { folder: "set/", progress });
    if (run !== app.run) return;
    take(all, begun, "sure", () => engine.later.call(words(asked, []), asked.files, { folder: "set/" }));
    if (all.code === 0) await weigh(all, asked, run);
    if (run !== app.run) return;
    say("Worked out.");
  } catch (error) {
    if (run === app.run) broken(error.message);
  }
}

// ---- what is worth knowing -------------------------------------------------------

const LEAST_DRAWN = 50, LEAST_HOURS = 10, MOST_ROWS = 6;
// What is of the whole house: no option's, no weather's.
const OF_HOUSE = /^(?:house|people|moisture|airing|temperature|insulation|windows|surfaces|heating|cooling|buffering|ground)\./;

// The houses drawn, asked once more: what knowing each figure is worth.
async function weigh(answer, asked, run) {
  const drawn = JSON.parse(new TextDecoder().decode(answer.files["summary.json"])).houses?.drawn ?? 0;
  if (drawn < LEAST_DRAWN) return;
  const { code, out } = await engine.later.call(["spread", NAME, "--json", "--draws", String(drawn), ...KEEPS],
    asked.files, { folder: "set/" });
  if (code !== 0 || run !== app.run) return;
  const list = JSON.parse(out).inputs.map(({ key, option, narrows_h: hours }) => ({ key, option, hours }))
    .filter(({ key, option, hours }) => option === "" && hours >= LEAST_HOURS && OF_HOUSE.test(key))
    .sort((a, b) => b.hours - a.hours).slice(0, MOST_ROWS);

  form.weigh(list);
  if (list.length === 0) return;
  $("ui-told").querySelector("#answer")?.after(make("section", { id: "worth" }, make("h2", {}, "Worth knowing first"),
    make("p", {}, "How far the hours too humid or too dry may go apart, and by about how many hours less if you knew:"),
    make("ul", {}, ...list.map(({ key, hours }) => make("li", {}, form.askedBy(key), `: ${about(hours)} hours`)))));
}

const figuresOf = (bytes) => figures(JSON.parse(new TextDecoder().decode(bytes)));

// All files of an answer, worked out when one is first asked for.
function once(ask) {
  let asked;

  return async () => {
    const before = [$("ui-status").textContent, !$("ui-stop").hidden];

    say("Writing the files...", true);
    try {
      asked ??= ask();
      const { files } = await asked;
      say(...before);
      return files;
    } catch (error) {
      asked = undefined;
      say(`Not written: ${error.message}`);
      throw error;
    }
  };
}

function take(answer, begun, told, whole) {
  showFaults(faultsOf(answer.code === 0 ? "" : answer.err));
  if (answer.code !== 0) {
    say(answer.err.trim() === "" ? `The engine ended with ${answer.code}.` : "Not worked out: see what to put right.");
    $("ui-faults").scrollIntoView?.({ block: "nearest" });
    return;
  }
  const now = figuresOf(answer.files["summary.json"]);
  showReport($("ui-told"), answer, { zooms: data("ui-zooms"), whole: once(whole),
    beside: app.remembered === undefined ? undefined : comparison(app.remembered, now),
    options: [...now.keys()], remember: () => { app.remembered = now; } });
  old(false);
  $("ui-empty").hidden = true;
  $("ui-told").dataset.told = told;
  $("ui-told").dataset.took = Math.round(performance.now() - begun);
  $("ui-told").dataset.engine = Math.round(answer.ms);
}

function broken(why) {
  say(`The engine stopped (${why}). Nothing that you typed is lost: change something, or ask again.`);
}

// ---- files -----------------------------------------------------------------------

function tooBig(file, most) {
  if (file.size <= most) return false;
  say(`${file.name} has ${(file.size / 2 ** 20).toFixed(0)} MB; the most that is read is ${most / 2 ** 20} MB.`);
  return true;
}

const safe = (name) => name.replace(/[^\p{L}\p{N}._-]+/gu, "_").replace(/^[._-]+/, "") || "file";

app.file = async (path, file) => {
  if (tooBig(file, MOST)) return;
  const name = safe(file.name), bytes = new Uint8Array(await file.arrayBuffer());
  const before = app.files;

  app.files = { ...app.files, [name]: bytes };
  if (get(app.text, path) === name) return app.asked && work();
  app.edit(path, name);
  if (app.before.length > 0) app.before.at(-1).files = before;
};

async function open(file) {
  if (tooBig(file, MOST_TEXT)) return;
  load(await file.text(), {});
}

// A scenario in the place of what stands; undone like any change.
function load(text, files) {
  app.before.push({ text: app.text, files: app.files });
  app.after = [];
  stand({ text, files: { ...app.files, ...files } });
  if (!app.chosen) app.si = si(text);
  show();
  work();
}

const many = (text, what) => text.match(what)?.length ?? 0;
const si = (text) => many(text, /\d ?(?:m2|m|degC|L\/s|m3\/h)\b/g) > many(text, /\d ?(?:ft2|ft|degF|cfm|R)\b/g);

async function dropped(file) {
  if (/\.ya?ml$/i.test(file.name)) return open(file);
  const ask = $("ui-which");
  const button = (words, path) => make("button", { type: "button", onclick: () => {
    ask.hidden = true;
    app.file(path, file);
  } }, words);

  ask.hidden = false;
  ask.replaceChildren(make("p", {}, `What is ${file.name}?`), button("Weather outdoors", ["weather", "file"]),
    button("A logger indoors", ["log", "file"]),
    make("button", { type: "button", onclick: () => { ask.hidden = true; } }, "Neither"));
  ask.querySelector("button").focus();
}

function save(name, bytes) {
  const url = URL.createObjectURL(blobOf(name, bytes));

  make("a", { href: url, download: name }).click();
  setTimeout(() => URL.revokeObjectURL(url), 60000);
}

// ---- the beginning -----------------------------------------------------------------

function wire() {
  $("ui-form").addEventListener("submit", (event) => event.preventDefault());
  $("ui-form").addEventListener("input", expect);
  $("ui-go").addEventListener("click", () => {
    work();
    if (innerWidth < 992) $("ui-result").scrollIntoView();
  });
  $("ui-stop").addEventListener("click", () => {
    stop();
    say("Stopped. What stands here is from before, or of the likely house alone.");
  });
  $("ui-undo").addEventListener("click", () => turn(app.before, app.after));
  $("ui-redo").addEventListener("click", () => turn(app.after, app.before));
  $("ui-open").addEventListener("change", (event) => {
    const [file] = event.target.files;
    if (file !== undefined) open(file);
    event.target.value = "";
  });
  $("ui-save").addEventListener("click", () => save(NAME, app.text));
  $("ui-demo").addEventListener("click", () => load(data("ui-invented"), {}));
  $("ui-new").addEventListener("click", () => {
    stop();
    app.asked = false;
    change(START);
    showFaults([]);
    say("");
    $("ui-told").replaceChildren();
    $("ui-empty").hidden = false;
  });
  $("ui-yaml").addEventListener("change", (event) => change(event.target.value));
  $("ui-units").addEventListener("click", (event) => {
    if (event.target.value === undefined) return;
    app.si = event.target.value === "si";
    app.chosen = true;
    learn();
    show();
    if (app.asked) work();
  });
  document.addEventListener("keydown", (event) => {
    const typing = /^(?:INPUT|TEXTAREA)$/.test(event.target.tagName);
    if ((event.ctrlKey || event.metaKey) && event.key === "z" && !typing) turn(app.before, app.after);
  });
  document.addEventListener("dragover", (event) => event.preventDefault());
  document.addEventListener("drop", (event) => {
    event.preventDefault();
    const [file] = event.dataTransfer.files;
    if (file !== undefined) dropped(file);
  });
  $("ui-add").append(...addable(app));
}

// What a short call prints, after an answer that is waited for; asked again where
// a run was ended under it.
async function told(words) {
  await engine.ready;
  for (let i = 0; i < 5; i++) {
    try {
      await app.first?.catch(() => {});
      return JSON.parse((await engine.now.call(words, {})).out);
    } catch (error) {
      if (error.message !== "stopped") throw error;
    }
  }
  return [];
}

// What the engine knows of keys, in the units chosen.
async function learn() {
  const rows = await told(["explain", "--json", "--units", app.si ? "si" : "us"]);

  app.hints = new Map(rows.map((row) => [row.key, row]));
  if (!$("ui-form").hidden) form.showAll();
}

async function places() {
  for (const { number, name, state, like_yours: like } of await told(["weather", "list", "--json"])) {
    app.places.set(number, `${name}, ${state} (${number})`);
    if (like !== undefined) app.like.set(number, `In places like yours ${like.words}`);
  }
  $("ui-places").replaceChildren(...[...app.places.values()].map((value) => make("option", { value })));
  if (!$("ui-form").hidden) form.showAll();
}

function begin() {
  engine = new Engine(data("ui-worker"), bytesOf64(data(`ui-${which()}`)));
  for (const id of ["ui-plain", "ui-simd"]) $(id).remove(); // 3 MB that nobody reads again
  engine.fails = (why) => broken(why);
  form = new Form(app, $("ui-questions"), $("ui-cards"));
  wire();
  show();
  const given = data("ui-house");
  if (given.trim() !== "") {
    const { text, files } = JSON.parse(given);
    load(text, Object.fromEntries(Object.entries(files).map(([name, base64]) =>
      [name, bytesOf64(base64)])));
    app.before = [];
    show();
  }
  Promise.all([places(), learn()]).catch((error) => broken(error.message));
}

begin();
