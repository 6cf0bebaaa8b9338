// SPDX-License-Identifier: GPL-3.0-or-later
// An answer remembered, beside what stands now: option by option, by name.
import { make } from "./form.js";

const rounded = (x) => x === null || x === undefined ? "-" : Math.round(x).toLocaleString("en-US");

const COLUMNS = [
  ["too humid, hours", (option) => rounded(option.hours.too_humid)],
  ["too dry, hours", (option) => rounded(option.hours.too_dry)],
  ["mean CO2, ppm", (option) => rounded(option.co2_ppm?.mean)],
  ["to run and keep a year", (option) => option.money === null || option.money === undefined ? "-"
    : `$${rounded(option.money.yearly?.likely)}`],
];

// summary: of summary.json.  By name, the figures as words.
export function figures(summary) {
  return new Map(summary.options.map((option) => [option.name, COLUMNS.map(([, words]) => words(option))]));
}

export function comparison(before, now) {
  const names = [...new Set([...now.keys(), ...before.keys()])];
  const cell = (name, i) => {
    const old = before.get(name)?.[i] ?? "-", is = now.get(name)?.[i] ?? "-";
    return old === is ? make("td", {}, is) : make("td", { class: "moved" }, `${old} \u2192 ${is}`);
  };

  return make("section", { id: "compared" }, make("h2", {}, "Against the answer remembered"),
    make("div", { class: "wide" }, make("table", {}, make("thead", {}, make("tr", {},
      make("th", { scope: "col" }, "Option"), ...COLUMNS.map(([words]) => make("th", { scope: "col" }, words)))),
    make("tbody", {}, ...names.map((name) => make("tr", {}, make("th", { scope: "row" }, name),
      ...COLUMNS.map((_, i) => cell(name, i))))))),
    make("p", { class: "sub" }, "Of the likely house. Where nothing moved, one figure stands."));
}
