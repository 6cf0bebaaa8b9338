// SPDX-License-Identifier: GPL-3.0-or-later
// What a run told: its report, whose parts are taken over as the engine wrote
// them, and its files to keep.
import { make } from "./form.js";

const SPOKEN = ["stop", "answer", "options"]; // the rest is folded
const KINDS = { html: "text/html", json: "application/json", csv: "text/csv", svg: "image/svg+xml", yaml: "text/yaml" };
const reader = new TextDecoder();
const HELD = "<section id=\"charts\">"; // the longest part: two thirds of the report

let hold = () => {}; // builds what is held back of the answer that stands
globalThis.addEventListener?.("beforeprint", () => hold());

export function blobOf(name, bytes) {
  return new Blob([bytes], { type: `${KINDS[name.split(".").at(-1)] ?? "text/plain"};charset=utf-8` });
}

// A link that makes its file when it is followed.  whole: gives all files;
// which: of their names.
function keep(whole, which, words, open) {
  return make("a", { href: "#", onclick: async (event) => {
    event.preventDefault();
    const files = await whole().catch(() => ({}));
    const name = Object.keys(files).find(which);
    if (name === undefined) return;
    const url = URL.createObjectURL(blobOf(name, files[name]));
    make("a", open ? { href: url, target: "_blank", rel: "noopener" } : { href: url, download: name }).click();
    setTimeout(() => URL.revokeObjectURL(url), 60000);
  } }, words);
}

const FILES = [["report.html", "The report"], ["contractor.html", "Sheet for the contractor"],
  ["inspector.html", "Sheet for the inspector"], ["calendar.html", "Calendar of upkeep"],
  ["summary.json", "All figures (JSON)"]];

function toKeep(whole, options, remember) {
  const rows = FILES.map(([file, words]) => {
    const which = (name) => name === file;
    return make("li", {}, `${words}: `, ...(file.endsWith(".html") ? [keep(whole, which, "look", true), " "] : []),
      keep(whole, which, "save", false));
  });

  rows.push(make("li", {}, "Each hour: ", ...options.flatMap((name, i) =>
    [keep(whole, (file) => new RegExp(`^hours-${i + 1}[-.]`).test(file), `${i + 1} ${name}`, false), " "])));
  return make("section", { id: "keep" }, make("h2", {}, "To keep and to hand over"),
    make("ul", { class: "plain" }, ...rows),
    make("p", {}, make("button", { type: "button", id: "ui-remember", onclick: (event) => {
      remember();
      event.currentTarget.textContent = "Remembered: change something and see";
    } }, "Remember this answer, to compare")));
}

function folded(section) {
  const head = section.querySelector("h2");
  const words = head?.textContent ?? "More";

  head?.remove();
  return make("details", { class: "part" }, make("summary", {}, words), section);
}

const coded = (words) => new TextEncoder().encode(words);

// Where these words begin in bytes; -1: nowhere.
function placeOf(bytes, words, from = 0) {
  const wanted = coded(words);

  for (let at = bytes.indexOf(wanted[0], from); at >= 0; at = bytes.indexOf(wanted[0], at + 1))
    if (wanted.every((byte, i) => bytes[at + i] === byte)) return at;
  return -1;
}

// The report with its charts apart, but for their heading; they stay bytes of their
// own, half as large as words, and nothing else of the report is held.
function chartsOf(bytes) {
  const from = placeOf(bytes, HELD);
  if (from < 0) return { rest: reader.decode(bytes), charts: new Uint8Array(0) };
  const head = placeOf(bytes, "</h2>", from) + 5, to = placeOf(bytes, "</section>", head);

  return { rest: reader.decode(bytes.subarray(0, head)) + reader.decode(bytes.subarray(to)), charts: bytes.slice(head, to) };
}

// Builds the charts when their part is first opened, linked to or printed.
function holding(place, charts, zooms) {
  const section = place.querySelector("#charts");
  let built = section === null;

  hold = () => {
    if (built) return;
    built = true;
    section.insertAdjacentHTML("beforeend", reader.decode(charts));
    place.append(make("script", {}, zooms));
  };
  section?.parentElement.addEventListener("toggle", () => hold());
}

// Into the place of what was told before.  zooms: the report's own script;
// beside: of an answer remembered, or none; whole: gives all files of it.
export function showReport(place, answer, { zooms, options, beside, remember, whole }) {
  const { files } = answer;
  const { rest, charts } = chartsOf(files["report.html"]);
  const report = new DOMParser().parseFromString(rest, "text/html");
  const kept = new Set([...place.querySelectorAll("details[open]")].map((one) => one.firstChild.textContent));
  const sections = [...report.querySelectorAll("main > section, main > div > section")];
  const spoken = sections.filter((section) => SPOKEN.includes(section.id));
  const more = sections.filter((section) => !SPOKEN.includes(section.id)).map(folded);
  const after = 1 + spoken.findIndex((part) => part.id === "answer");
  const head = report.querySelector("header h1");
  const text = make("details", { class: "part" }, make("summary", {}, "The same as plain text"),
    make("pre", { id: "as-text", tabindex: "0" }, answer.out));
  const notes = answer.err.trim();

  place.replaceChildren(...report.querySelectorAll("body > svg.defs"),
    make("p", { class: "sub" }, head?.textContent ?? ""), ...spoken.slice(0, after),
    ...(beside === undefined ? [] : [beside]), ...spoken.slice(after), toKeep(whole, options, remember), ...more, text,
    ...(notes === "" ? [] : [make("pre", { class: "notes" }, notes.replaceAll(/^dewledger: /gm, ""))]));
  holding(place, charts, zooms);
  for (const one of place.querySelectorAll("details")) if (kept.has(one.firstChild.textContent)) one.open = true;
  if (place.querySelector("#charts")?.parentElement.open) hold();
  place.onclick = (event) => goTo(event, place);
  place.append(make("script", {}, zooms));
}

// A link into a folded part opens it.
function goTo(event, place) {
  const link = event.target.closest('a[href^="#"]:not([href="#"])');
  if (link === null) return;
  const to = place.querySelector(`#${CSS.escape(link.getAttribute("href").slice(1))}`);

  event.preventDefault();
  if (to === null) return;
  for (let up = to; up !== place; up = up.parentElement) if (up.tagName === "DETAILS") up.open = true;
  to.scrollIntoView();
}
