// SPDX-License-Identifier: GPL-3.0-or-later
// The questions and the cards, drawn from their tables; each shows what the text
// says and hands on what is typed.  Nothing of a user becomes markup.
import { CARD, CARD_MORE, GRILLE, GROUPS, PARTS } from "./questions.js";
import { count, get } from "./yaml.js";

export function make(name, attributes = {}, ...inside) {
  const element = document.createElement(name);

  for (const [key, value] of Object.entries(attributes))
    if (key.startsWith("on")) element.addEventListener(key.slice(2), value);
    else if (value !== false && value !== undefined) element.setAttribute(key, value === true ? "" : value);
  element.append(...inside);
  return element;
}

const NUMBER = /^([-+]?[\d.,]*\d[\d.,]*)\s*([^\s(\d][^(]*?)?\s*(\(.*\))?$/;

// A value as number (with its doubt) and unit; undefined where it is neither.
export function apart(words, units) {
  const found = NUMBER.exec(words);

  if (found === null || found[2] === undefined || !units.includes(found[2])) return undefined;
  return { number: found[1] + (found[3] === undefined ? "" : ` ${found[3]}`), unit: found[2] };
}

// As typed, with the unit where no other was written.
export function together(typed, unit) {
  const words = typed.trim(), found = NUMBER.exec(words);

  if (words === "" || found === null || found[2] !== undefined) return words;
  return `${found[1]} ${unit}${found[3] === undefined ? "" : ` ${found[3]}`}`;
}

// app: { text, si, places, like, hints, edit(path, words), file(path, file) }
export class Form {
  constructor(app, questions, cards) {
    this.app = app;
    this.fields = new Map(); // by path, dots between
    this.cards = cards;
    this.typing = undefined; // the field with words that are not in the text yet
    for (const group of GROUPS) questions.append(this.group(group));
    this.more = make("div", {});
    questions.append(this.more);
  }

  // list: { key, hours }, most first: what knowing each would narrow the answer
  // by.  Those that no question asks for get one.
  weigh(list) {
    this.hours = new Map(list.map(({ key, hours }) => [key, hours]));
    for (const { key } of list)
      if (!this.fields.has(key)) {
        this.more.append(...this.more.children.length > 0 ? [] : [make("h3", {}, "More that moves the answer")],
          this.field({ key, label: capital(this.app.hints.get(key)?.help ?? key), kind: "plain" }, key.split(".")));
      }
    this.showAll();
  }

  // The label of a question, and what brings one to it.
  askedBy(key) {
    const field = this.fields.get(key);

    return make("a", { href: `#${field.id}`, onclick: (event) => {
      event.preventDefault();
      for (let up = field.box; up !== null; up = up.parentElement) if (up.tagName === "DETAILS") up.open = true;
      field.input.focus();
    } }, field.row.label);
  }

  group({ name, open, rows }) {
    const inside = rows.map((row) => this.field(row, row.key.split(".")));

    if (open) return make("fieldset", {}, make("legend", {}, name), ...inside);
    return make("details", { class: "group" }, make("summary", {}, name),
      make("div", { role: "group", "aria-label": name }, ...inside));
  }

  // ---- one field -----------------------------------------------------------------

  field(row, path) {
    const id = `ui-${path.join("-").replace(/[^\w-]/g, "")}`;
    const field = { row, path, id };

    field.input = this.input(field);
    field.input.id = id;
    field.input.dataset.path = path.join(".");
    field.note = make("p", { class: "note", id: `${id}-note` });
    field.fault = make("p", { class: "fault", id: `${id}-fault`, role: "alert", hidden: true });
    field.input.setAttribute("aria-describedby", `${id}-note ${id}-fault`);
    field.box = make("div", { class: `field ${row.kind}` },
      make("label", { for: id }, row.label, row.must && row.kind !== "place" ? make("small", {}, " needed") : ""),
      make("div", { class: "value" }, field.input, ...(field.beside ?? [])), field.note, field.fault);
    this.fields.set(path.join("."), field);
    return field.box;
  }

  input(field) {
    const { row } = field;
    const change = () => this.changed(field);

    if (row.kind === "choice")
      return make("select", { onchange: change }, ...row.words.map(([value, words]) =>
        make("option", { value }, words)));
    if (row.kind === "file") {
      const told = make("span", { class: "told" });
      const none = make("button", { type: "button", hidden: true,
        onclick: () => this.app.edit(field.path, "") }, "Without it");

      field.told = told;
      field.none = none;
      field.beside = [told, none];
      return make("input", { type: "file", onchange: (event) => {
        const [file] = event.target.files;
        if (file !== undefined) this.app.file(field.path, file);
        event.target.value = "";
      } });
    }
    if (row.kind === "number") {
      const units = [...new Set(row.units)];
      field.unit = make("select", { "aria-label": `Unit of: ${row.label}`,
        onchange: () => field.input.value.trim() !== "" && change() },
      ...units.map((unit) => make("option", { value: unit }, unit === "R" ? "R (US)" : unit)));
      field.beside = units.length > 1 ? [field.unit] : [make("span", { class: "told" }, units[0])];
    }
    const input = make("input", { type: "text", onchange: change,
      oninput: () => { this.typing = field; }, spellcheck: "false",
      autocomplete: "off", inputmode: row.kind === "number" ? "decimal" : false,
      list: row.kind === "place" ? "ui-places" : false });
    return input;
  }

  changed(field) {
    const { row, input } = field;
    const typed = input.value;

    this.typing = undefined;
    this.app.edit(field.path, row.kind === "number" ? together(typed, field.unit.value)
      : row.kind === "place" ? this.app.place(typed) : typed.trim());
  }

  // ---- what the text says ----------------------------------------------------------

  // What is being typed stays: hints and places arrive when they are known.
  show(field) {
    const words = get(this.app.text, field.path) ?? "";

    if (field !== this.typing) this.fill(field, words);
    field.note.textContent = this.note(field.row, words === "", words);
  }

  fill(field, words) {
    const { row, input } = field;
    const empty = words === "";

    if (row.kind === "number") {
      const units = [...new Set(row.units)], two = apart(words, units);
      if (two !== undefined) field.unit.value = two.unit;
      else if (empty && document.activeElement !== field.unit) field.unit.value = row.units[this.app.si ? 1 : 0];
      input.value = two === undefined ? words : two.number;
      field.unit.disabled = !empty && two === undefined && NUMBER.exec(words) !== null;
    } else if (row.kind === "choice") {
      for (const other of input.querySelectorAll("[data-other]")) other.remove();
      if (!row.words.some(([value]) => value === words))
        input.append(make("option", { value: words, "data-other": true },
          words === "unknown" ? "I don't know (unknown)" : words.slice(0, 80)));
      input.value = words;
    } else if (row.kind === "file") {
      field.told.textContent = empty ? "" : words;
      field.none.hidden = empty;
    } else {
      input.value = row.kind === "place" ? this.app.placed(words) : words;
    }
  }

  // What stands where nothing was told, and how it is to be written.
  note(row, empty, words) {
    const known = this.app.hints.get(row.key);
    const said = [row.hint ?? ""];

    if (empty && row.empty !== undefined) said.push(row.empty);
    else if (empty && !row.must && row.words?.[0][0] !== "" && known?.default && known.default !== "none")
      said.push(`Not known: ${known.default}${usual(known)} is taken.`);
    else if (empty && row.words?.[0][1] === "I don't know" && known?.default && !row.key.startsWith("safety"))
      said.push(`Not known: ${plain(row, known.default)} is taken.`);
    if (this.hours?.has(row.key)) said.push(`To know it would narrow the answer by about ${about(this.hours.get(row.key))} hours.`);
    if (row.kind === "place") said.push(this.app.like.get(words) ?? "");
    return said.filter((part) => part !== "").join(" ");
  }

  // ---- air found at the grilles ------------------------------------------------------

  grilles(index) {
    const path = ["options", index, "ducts", "grilles"];
    const many = count(this.app.text, path);
    const rows = Array.from({ length: many }, (_, k) => make("fieldset", { class: "grille" },
      make("legend", {}, `Grille ${k + 1}`), ...GRILLE.map((row) => this.field(row, [...path, String(k), row.key])),
      make("button", { type: "button", onclick: () => this.app.dropRow(path, k) }, `Without grille ${k + 1}`)));

    return make("details", { class: "grilles" }, make("summary", {}, "Air found at the grilles"),
      make("p", { class: "note" }, "Measured on site, with the ventilator on: it holds in place of what is computed. " +
        "Leave empty what was not measured. The answer shows the ducts and the balance under Where the air goes."),
      ...rows, make("button", { type: "button", onclick: () => this.app.addRow(path, `{room: room ${many + 1}}`) }, "+ a grille"));
  }

  // ---- the cards -----------------------------------------------------------------

  card(index) {
    const draw = (row) => this.field(row, ["options", index, ...row.key.split(".")]);
    const button = (words, does) => make("button", { type: "button", onclick: does }, words);
    const more = make("details", {}, make("summary", {}, "Ducts, blower, spec sheet, more"),
      ...CARD_MORE.map(draw));
    const card = make("details", { class: "card" }, make("summary", {}), ...CARD.map(draw), this.grilles(index), more,
      make("div", { class: "curves" }),
      make("div", { class: "tools" }, button("Try other airflows", (event) =>
        this.app.curve(index, event.currentTarget.closest(".card").querySelector(".curves"))),
      button("Copy", () => this.app.copy(index)),
        button("Remove", () => this.app.drop(index))));

    return card;
  }

  // Drawn anew where their number changed; a new one stands open.
  showCards() {
    const many = count(this.app.text, ["options"]);
    const shape = Array.from({ length: many }, (_, i) => count(this.app.text, ["options", i, "ducts", "grilles"])).join();

    if (shape !== this.shape) {
      const open = new Set([...this.cards.querySelectorAll("details[open]")].map(wayOf));
      for (const key of [...this.fields.keys()]) if (key.startsWith("options.")) this.fields.delete(key);
      this.cards.replaceChildren(...Array.from({ length: many }, (_, i) => this.card(i)));
      if (this.many + 1 === many) this.cards.lastChild.open = true;
      else if (this.many === many)
        for (const part of this.cards.querySelectorAll("details")) part.open = open.has(wayOf(part));
      this.many = many;
      this.shape = shape;
    }
    for (const [i, card] of [...this.cards.children].entries()) {
      card.firstChild.textContent = this.title(i);
      card.querySelector(".tools button").hidden = !CARD[2].needs.includes(this.core(i));
      card.querySelector(".grilles").hidden = !CARD[2].needs.includes(this.core(i)) &&
        count(this.app.text, ["options", i, "ducts", "grilles"]) === 0;
    }
    for (const { row, path, box } of this.fields.values())
      if (row.needs !== undefined)
        box.hidden = !row.needs.includes(this.core(path[1])) && get(this.app.text, path) === undefined;
  }

  core(index) {
    return get(this.app.text, ["options", index, "ventilator", "core"]) ??
      get(this.app.text, ["ventilator", "core"]);
  }

  title(index) {
    const name = get(this.app.text, ["options", index, "name"]) ?? "without a name";
    const install = get(this.app.text, ["options", index, "costs", "install"]);

    return `${index + 1}. ${name}${install === undefined ? "" : `, ${install}`}`;
  }

  showAll() {
    this.showCards();
    for (const field of this.fields.values()) this.show(field);
  }

  // ---- faults ----------------------------------------------------------------------

  // Each beside its field, or its group's first; returns those without one.
  faults(list) {
    for (const { fault, input } of this.fields.values()) {
      fault.textContent = "";
      fault.hidden = true;
      input.removeAttribute("aria-invalid");
    }
    return list.filter((one) => {
      const field = this.fieldOf(one.path);
      if (field === undefined) return true;
      field.fault.textContent += `${field.fault.textContent === "" ? "" : " "}${one.says}`;
      field.fault.hidden = false;
      field.input.setAttribute("aria-invalid", "true");
      one.field = field;
      for (let up = field.box; up !== null; up = up.parentElement) if (up.tagName === "DETAILS") up.open = true;
      return false;
    });
  }

  fieldOf(path) {
    const key = path.join(".");
    if (key === "weather.file" && get(this.app.text, path) === undefined) return this.fields.get("weather.place");
    return this.fields.get(key);
  }
}

// Two figures are all that so few houses tell.
export const about = (hours) => Number(hours.toPrecision(2)).toLocaleString("en-US");

const capital = (words) => words[0].toUpperCase() + words.slice(1);

// Where a folded part stands among the cards.
function wayOf(part) {
  const card = part.closest(".card");
  return `${[...card.parentElement.children].indexOf(card)} ${part.className}`;
}

function usual(known) {
  const range = known.usual_range ?? "";
  const found = /^([-\d.]+ to [-\d.]+)(?= \()/.exec(range);

  return known.default.includes("(") || found === null ? "" : ` (${found[1]})`;
}

const plain = (row, value) => row.words.find(([known]) => known === value)?.[1] ?? value;

export const addable = (app) => PARTS.map(([name, lines]) =>
  make("button", { type: "button", onclick: () => app.add(name, lines) }, `+ ${name}`));
