// SPDX-License-Identifier: GPL-3.0-or-later
// The command as WebAssembly beside the command that gcc made: the same words,
// the same counted hours, every other figure within 1e-6 of itself; and a house
// in lanes beside the same house alone, to the bit.
// usage: node wasm.mjs FOLDER PROGRAM: of plain.wasm and simd.wasm; dewledger.
// At the root of the tree; an empty folder of its own in $WORK.
import { spawnSync } from "node:child_process";
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";

const [, , folder, program] = process.argv;
const { Files, run } = await import(process.env.WASI);
const modules = Object.fromEntries(["plain", "simd"].map((name) =>
  [name, new WebAssembly.Module(readFileSync(join(folder, `${name}.wasm`)))]));

function says(name, so, why = "") {
  console.log(so ? `ok ${name}` : `not ok ${name}`);
  if (so) return;
  if (why) console.log(why.slice(0, 400));
  process.exitCode = 1;
}

// ---- both sides ----------------------------------------------------------------

// All that the words name and need: scenarios and made years.
const tree = ["scenarios", "weather"].flatMap((place) =>
  readdirSync(place, { withFileTypes: true }).filter((file) => file.isFile()).map(({ name }) => `${place}/${name}`));

function inModule(which, words, more = {}) {
  const files = new Files({ ...more });

  for (const name of tree) files.put(name, readFileSync(name));
  return { ...run(modules[which], files, words), files };
}

function native(words) {
  const r = spawnSync(program, words, { env: {}, maxBuffer: 1 << 26 });
  return { code: r.status, out: r.stdout, err: r.stderr };
}

// The two copies of argp, glibc's and gnulib's, are of different years; surveys
// are not in the module.
const text = (bytes) => Buffer.from(bytes).toString().replace(/^ +survey .*\n/m, "")
  .replaceAll("`", "'").replace("Give this", "give this").replace("Give a", "give a");

function sameSaid(name, a, b) {
  says(name, a.code === b.code && text(a.out) === text(b.out) && text(a.err) === text(b.err),
    `exit ${a.code} and ${b.code}\n${firstDifference(text(a.out), text(b.out))}` +
    firstDifference(text(a.err), text(b.err)));
}

function firstDifference(a, b) {
  const x = a.split("\n"), y = b.split("\n");
  const i = x.findIndex((line, k) => line !== y[k]);
  return i < 0 ? "" : `line ${i + 1}: ${x[i]}\n   but: ${y[i]}\n`;
}

// Text with its numbers apart.  What is a difference of two like sums is near
// nothing: there 1e-9 counts.
const NUMBER = /-?\d+(?:\.\d+)?(?:e[-+]?\d+)?/g;

function near(a, b) {
  return Math.abs(a - b) <= Math.max(1e-6 * Math.abs(b), 1e-9);
}

function sameFile(got, wanted) {
  const x = got.match(NUMBER) ?? [], y = wanted.match(NUMBER) ?? [];
  const whole = (s) => /^-?\d+$/.test(s);

  if (got.replace(NUMBER, "#") !== wanted.replace(NUMBER, "#") || x.length !== y.length)
    return "other words";
  const i = x.findIndex((s, k) => s !== y[k] &&
    (whole(s) && whole(y[k]) || !near(+s, +y[k])));
  return i < 0 ? "" : `${x[i]} is not ${y[i]}`;
}

// ---- the trials ----------------------------------------------------------------

for (const [a, b, is] of [["1.5", "1.500001", ""], ["1.5", "1.50001", "1.5 is not 1.50001"],
  ["185 h", "186 h", "185 is not 186"], ["2 h", "2 m", "other words"],
  ["3e-14", "4e-16", ""]])
  says(`"${a}" beside "${b}": ${is || "the same"}`, sameFile(a, b) === is);

for (const words of [["--help"], ["run", "--help"], ["weather", "--help"], ["explain", "--usage"],
  ["rum"], ["run", "--uot"], ["run", "no.yaml"], ["explain", "house.airtightness"],
  ["check", "scenarios/demo.yaml"],
  ["air", "81.3degF", "71%"], ["weather", "near", "30.3 -89.8"]])
  for (const which of ["plain", "simd"])
    sameSaid(`${which}: ${words.join(" ")}`, inModule(which, words), native(words));

const wrong = "house:\n  airtightness: 3 ducks\n  floor_area: -5 m2\n";
for (const which of ["plain", "simd"]) {
  const r = inModule(which, ["check", "wrong.yaml"], { "wrong.yaml": wrong });

  says(`${which}: each fault with its place`, r.code === 1 &&
    /wrong\.yaml:2:\d+: house\.airtightness/.test(text(r.err)) &&
    /wrong\.yaml:3:\d+: house\.floor_area/.test(text(r.err)), text(r.err));
}

const words = ["run", "scenarios/demo.yaml", "--full", "--draws", "3", "--out"];
const place = process.env.WORK;
const known = native([...words, join(place, "set")]);
says("the command's own run", known.code === 0, text(known.err));
const names = readdirSync(join(place, "set"), { recursive: true, withFileTypes: true })
  .filter((entry) => entry.isFile())
  .map((entry) => join(entry.parentPath ?? entry.path, entry.name).slice(place.length + 1));
const ran = {};
for (const which of ["plain", "simd"]) {
  const r = ran[which] = inModule(which, [...words, "set"]);
  const here = text(known.out).replaceAll(`${place}/`, "");
  const kept = r.files.list().filter((name) => name.startsWith("set/"));

  says(`${which}: the demo in the same words`, r.code === 0 &&
    text(r.out).replace(/Files:[^]*?\n\n/, "") === here.replace(/Files:[^]*?\n\n/, ""),
  firstDifference(text(r.out), here));
  says(`${which}: the same ${names.length} files, no part left`,
    kept.sort().join() === names.sort().join(), kept.join(" "));
  const other = names.map((name) => [name, sameFile(r.files.text(name) ?? "",
    readFileSync(join(place, name), "utf8"))]).filter(([, why]) => why !== "");
  says(`${which}: the same figures in them`, other.length === 0, other.join("\n"));
}
says("in both modules the same bytes", names.every((name) =>
  Buffer.compare(ran.plain.files.bytes(name), ran.simd.files.bytes(name)) === 0));
for (const which of ["plain", "simd"]) {
  const module = new WebAssembly.Module(readFileSync(join(folder, `lanes-${which}.wasm`)));
  const r = run(module, new Files(Object.fromEntries(tree.map((name) =>
    [name, readFileSync(name)]))), []);

  process.stdout.write(text(r.out).replace(/ option/g, ` ${which}: option`));
  says(`${which}: a lane is its house alone`, r.code === 0 &&
    text(r.out).split("\n").filter((line) => line.startsWith("ok")).length === 5);
}
{
  // a second set over the first, by another instance: the folder is read anew
  const again = run(modules.simd, ran.simd.files, [...words, "set"]);
  says("the set written anew over itself", again.code === 0 &&
    ran.simd.files.list().filter((name) => name.startsWith("set/")).length === names.length,
  text(again.err));
}
{
  const spread = ["spread", "scenarios/demo.yaml", "--draws", "8", "--option", "as it stands",
    "--option", "enthalpy core and dehumidifier"];
  const [a, b] = ["plain", "simd"].map((which) => inModule(which, spread));
  sameSaid("eight houses drawn: the same in both modules", a, b);
  sameSaid("eight houses drawn: as the command", b, native(spread));
}
