// SPDX-License-Identifier: GPL-3.0-or-later
// How fast the page is in a browser, beside the command on the same scenario.
// Told by speed.sh.
// usage: node speed.mjs PAGE PROGRAM, at the root; ROUNDS=9 for more than 5
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";

const [, , file, program] = process.argv;
const page_file = resolve(file);
const { chromium } = createRequire(page_file)("playwright-core");
const ROUNDS = +(process.env.ROUNDS ?? 5);
const demo = readFileSync("scenarios/demo.yaml", "utf8");

// ---- the process of the tab -------------------------------------------------------

// The browser shows parts of itself in processes like a tab's, of 60 to 100 MB in
// all: the tab's own is the one that works while its page does.
async function tabOf(browser, page) {
  const session = await browser.newBrowserCDPSession();
  const used = async () => new Map((await session.send("SystemInfo.getProcessInfo")).processInfo
    .filter(({ type }) => type === "renderer").map(({ id, cpuTime }) => [id, cpuTime]));

  await page.waitForTimeout(3000); // what a browser does at its start
  for (;;) {
    const before = await used();
    await page.evaluate(() => { for (const end = performance.now() + 500; performance.now() < end;); });
    const [most, next] = [...await used()].map(([id, s]) => [s - (before.get(id) ?? 0), id]).sort(([a], [b]) => b - a);

    if (next === undefined || most[0] > 3 * next[0]) return most[1];
  }
}

// What it used of a processor, ms, and holds (proportional set size), MB.
const msOf = (pid) => {
  const of = readFileSync(`/proc/${pid}/stat`, "utf8").split(") ")[1].split(" ");
  return 10 * (+of[11] + +of[12]);
};
const mbOf = (pid) => +/^Pss: +(\d+)/m.exec(readFileSync(`/proc/${pid}/smaps_rollup`, "utf8"))[1] / 1024;

// In the page: when it was last clicked or changed, and when the answer after that
// was drawn.
function clock() {
  const times = { asked: 0, drawn: 0 };
  const asked = (event) => { times.asked = event.timeStamp; };

  globalThis.speed = times;
  for (const kind of ["click", "change"]) addEventListener(kind, asked, true);
  document.addEventListener("DOMContentLoaded", () => new MutationObserver(() =>
    requestAnimationFrame(() => setTimeout(() => { times.drawn = performance.now(); })))
    .observe(document.getElementById("ui-told"), { attributes: true, attributeFilter: ["data-took"] }));
}

// ---- one round --------------------------------------------------------------------

const found = new Map(); // by what: each round's
const note = (what, value) => found.set(what, [...found.get(what) ?? [], value]);

let tab;

async function timed(what, does) {
  const [begun, used] = [performance.now(), msOf(tab)];

  await does();
  note(`${what}, ms`, performance.now() - begun);
  note(`${what}, ms of the tab's processor time`, msOf(tab) - used);
}

// From what was pressed to the answer drawn, by the page's own events; of that,
// the page's clock and the engine's.
async function noted(what, page) {
  note(`${what}, from the event to its picture, ms`, await page.evaluate(async () => {
    while (speed.drawn < speed.asked) await new Promise((yes) => setTimeout(yes, 5));
    return speed.drawn - speed.asked;
  }));
  note(`${what}, by the page's clock, ms`, +await page.getAttribute("#ui-told", "data-took"));
  note(`${what}, of that the engine, ms`, +await page.getAttribute("#ui-told", "data-engine"));
}

function command() {
  const set = mkdtempSync(join(tmpdir(), "speed-"));
  const begun = performance.now();

  spawnSync(program, ["run", "scenarios/demo.yaml", "--quick", "--out", set], { stdio: "ignore" });
  note("the command, five options, ms", performance.now() - begun);
  rmSync(set, { recursive: true });
}

async function round() {
  const browser = await chromium.launch({ executablePath: process.env.BROWSER,
    args: ["--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--disable-background-networking"] });
  const page = await (await browser.newContext({ viewport: { width: 1280, height: 900 }, offline: true })).newPage();
  const stands = () => page.waitForSelector("#ui-told:not(.old)[data-told]");
  let most = 0;

  page.setDefaultTimeout(600000);
  await page.addInitScript(clock);
  tab = await tabOf(browser, page);
  note("memory of an empty tab, MB", mbOf(tab));
  const watch = setInterval(() => { most = Math.max(most, mbOf(tab)); }, 50);
  await timed("first screen", () => page.goto(`file://${page_file}`));
  await timed("first verdict of five options, from the click", async () => {
    await page.click("#ui-demo");
    await stands();
  });
  await noted("five options", page);
  await page.click("#ui-stop");
  await page.evaluate(() => { for (const e of document.querySelectorAll("#ui-cards details")) e.open = true; });
  for (const flow of ["60", "70", "80"]) {
    await page.fill("#ui-options-3-ventilator-flow", flow);
    await timed("one option changed", async () => {
      await page.press("#ui-options-3-ventilator-flow", "Tab");
      await page.waitForSelector("#ui-told.old", { timeout: 1000 }).catch(() => {}); // it may be done
      await stands();
    });
    await noted("one option changed", page);
    await page.click("#ui-stop");
  }
  await page.waitForTimeout(2000); // what ended gives its memory back
  note("memory of the tab with an answer, MB", mbOf(tab));
  if (process.env.SURE) {
    await timed("how sure, from the click", async () => {
      await page.click("#ui-go");
      await page.waitForSelector("#ui-told[data-told=sure]");
    });
  } else {
    await page.click("#ui-go");
    await page.waitForTimeout(8000); // houses like it are marched
  }
  clearInterval(watch);
  note("memory at most, two workers at work, MB", most);
  await browser.close();
}

// ---- medians ------------------------------------------------------------------------

const sorted = (list) => [...list].sort((a, b) => a - b);
const median = (list) => sorted(list)[(list.length - 1) >> 1];

for (let i = 0; i < ROUNDS; i++) {
  command();
  await round();
}
const beside = median(found.get("the command, five options, ms"));
for (const [what, list] of found)
  console.log(`${what.padEnd(66)} ${median(list).toFixed(0).padStart(6)} (best ${Math.min(...list).toFixed(0)})` +
    (what.endsWith("ms") ? `  ${(median(list) / beside).toFixed(2)} times the command` : ""));
