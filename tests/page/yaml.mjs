// SPDX-License-Identifier: GPL-3.0-or-later
// The text of a scenario as the page reads and changes it, beside what the
// command reads there.
// usage: node yaml.mjs MODULE PROGRAM, at the root
import { spawnSync } from "node:child_process";
import { cpSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";

const [, , module, program] = process.argv;
const { add, count, drop, get, lines, read, set, unset } = await import(module);
const { PARTS } = await import(process.env.QUESTIONS);
const place = join(process.env.WORK, "scenarios");
mkdirSync(place, { recursive: true });
cpSync("weather", join(process.env.WORK, "weather"), { recursive: true });

function says(name, so, why = "") {
  console.log(so ? `ok ${name}` : `not ok ${name}`);
  if (!so) {
    console.log(String(why).slice(0, 600));
    process.exitCode = 1;
  }
}

function check(text) {
  const file = join(place, "house.yaml");

  writeFileSync(file, text);
  const r = spawnSync(program, ["check", file, "--json"], { maxBuffer: 1 << 26 });
  return r.status === 0 ? JSON.parse(r.stdout) : { failed: String(r.stderr) };
}

// Numbers are printed without the zeros that were typed.
const alike = (a, b) => a?.replace(/(\d\.\d*?)0+(?!\d)/g, "$1").replace(/(\d)\.(?!\d)/g, "$1") === b;

// What the file told, by key, and what the page sees there.
function others(text) {
  const { base, failed } = check(text);

  if (failed !== undefined) return [failed];
  return Object.entries(base).filter(([key, { from, text: said }]) => from === "file" && !said.startsWith("[") &&
    !alike(get(text, key.split(".")), said)).map(([key, { text: said }]) => `${key}: ${said}`);
}

for (const name of readdirSync("scenarios").filter((name) => name.endsWith(".yaml"))) {
  const text = readFileSync(join("scenarios", name), "utf8");
  const wrong = others(text);

  says(`${name}: each value is where the command reads it`, wrong.length === 0, wrong.join("\n"));
  says(`${name}: each value set to what it is changes nothing`, ["title", "house.floor_area"].every((key) =>
    set(text, key.split("."), get(text, key.split("."))) === text));
}

const demo = readFileSync("scenarios/demo.yaml", "utf8");
const TRIALS = [
  ["a value in a block", set(demo, ["house", "floor_area"], "2000 ft2"), { "house.floor_area": "2000 ft2" }],
  ["a value in brackets", set(demo, ["people", "count"], "5"), { "people.count": "5" }],
  ["a key new in brackets", set(demo, ["heating", "cop_warm"], "3"), { "heating.cop_warm": "3" }],
  ["a key new in a block", set(demo, ["house", "volume"], "16200 ft3"), { "house.volume": "16200 ft3" }],
  ["a group that was not there", set(demo, ["windows", "u"], "0.3 Btu/hft2F"), { "windows.u": "0.3 Btu/hft2F" }],
  ["a comma in brackets", set(demo, ["weather", "place"], "25.8, -80.3"), { "weather.place": "25.8, -80.3" }],
  ["words with marks of their own", set(demo, ["title"], 'a: "b" #c \\ {d}'), { title: 'a: "b" #c \\ {d}' }],
  ["a key away from brackets", unset(demo, ["moisture", "cooking"]), { "moisture.cooking": undefined, "moisture.showers": "4 per day" }],
  ["the first key away from brackets", unset(demo, ["moisture", "showers"]), { "moisture.cooking": "electric",
    "moisture.showers": undefined }],
  ["the last key of a group", unset(demo, ["heating", "kind"]), { "heating.kind": undefined }],
];
for (const [name, text, wanted] of TRIALS) {
  const { base, failed } = check(text);

  says(name, failed === undefined && others(text).length === 0 && Object.entries(wanted).every(([key, value]) =>
    (base[key].from === "file" ? base[key].text : undefined) === value), failed ?? others(text).join() + text);
  says(`${name}: all comments stand`, text.match(/#.*(?:made up|Miami|run)/g).length >= 3);
}
{
  let text = drop(demo, 1);
  text = add(text, lines(text, 3));
  text = set(text, ["options", 4, "name"], "again");
  text = set(text, ["options", 0, "ventilator", "core"], "heat_plate");
  text = set(text, ["options", 0, "ventilator", "typical"], "yes");
  text = set(text, ["options", 0, "ventilator", "flow"], "50 cfm");
  text = unset(text, ["options", 1, "costs"]);
  const { options, failed } = check(text);
  const names = (options ?? []).map(({ name }) => name);

  says("options dropped, copied, named", failed === undefined && names.join("|") ===
    "as it stands|heat-recovery core|enthalpy core|enthalpy core and dehumidifier|again", failed ?? names.join("|"));
  says("a group new in an option", get(text, ["options", 0, "ventilator", "flow"]) === "50 cfm" && count(text, ["options"]) === 5);
}
says("no group stands empty", !unset(demo, ["heating", "kind"]).includes("heating") &&
  !unset(demo, ["options", 1, "ventilator", "core"]).includes("ventilator: {}"));
{
  const none = readFileSync("scenarios/ducts_written.yaml", "utf8");
  const text = set(none, ["options", 0, "ventilator", "core"], "enthalpy_wheel");
  says("a group in the place of none", check(text).failed === undefined, check(text).failed);
}
says("from nothing", check(["title: x", ""].reduce((text) =>
  [["weather.place", "722020"], ["house.floor_area", "100 m2"], ["house.bedrooms", "2"]]
    .reduce((so, [key, value]) => set(so, key.split("."), value), text), "")).failed === undefined);
for (const odd of ["a: &b 1\n", "a: |\n  b\n", "a: {b: 1\n", "- a\n b: 2\n", "a:\n\tb: 1\n", "[".repeat(20000), "a: 'b\n", "? a\n"]) {
  let why;
  try {
    read(odd);
  } catch (error) {
    why = error;
  }
  says(`refused: ${JSON.stringify(odd.slice(0, 12))}`, why !== undefined && why.message !== "");
}

// ---- the options to begin with --------------------------------------------------

// What the engine makes for a house on a warm, damp coast and for another;
// what is made of two has the figures of both, and their prices together.
{
  const houses = ["title: x\nweather: {place: 722020}\nhouse: {floor_area: 1900 ft2, bedrooms: 3}\n" +
    "cooling: {capacity: 2.5 ton}\n", readFileSync("scenarios/first.yaml", "utf8")];
  const found = new Map();
  const keys = ["ventilator.core", "ventilator.typical", "dehumidifier.rate", "dehumidifier.typical", "costs.install",
    "costs.upkeep", "costs.date"];
  const rows = (text, i) => Object.fromEntries(keys.map((key) => [key, get(text, ["options", i, ...key.split(".")])]));
  const summed = (a, b) => {
    let i = 0;
    const numbers = b?.match(/\d+/g);
    return a?.replace(/\d+/g, (n) => String(+n + +numbers[i++]));
  };
  const both = (a, b) => Object.fromEntries(keys.map((key) => [key, /install|upkeep/.test(key) ? summed(a?.[key], b?.[key])
    : a?.[key] ?? b?.[key]]));

  for (const house of houses) {
    writeFileSync(join(place, "bare.yaml"), house);
    const made = String(spawnSync(program, ["run", join(place, "bare.yaml"), "--suggest", "--yaml", "--quick"]).stdout);
    for (let i = 0; i < count(made, ["options"]); i++) found.set(get(made, ["options", i, "name"]), rows(made, i));
  }
  const like = (a, b) => a !== undefined && b !== undefined && keys.every((key) => a[key] === b[key]);
  const of = (name) => found.get(name) ?? both(...name.split(", ").map((part) => found.get(part)));
  says("of two parts the engine sums the prices", like(found.get("exhaust fan, dehumidifier"),
    both(found.get("exhaust fan"), found.get("dehumidifier"))), JSON.stringify([...found]));
  for (const [name, words] of PARTS)
    says(`"${name}" has the engine's figures and prices`, like(of(name), rows(add("title: x\n", words), 0)),
      JSON.stringify([of(name), rows(add("title: x\n", words), 0)]));
}
