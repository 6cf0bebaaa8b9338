// SPDX-License-Identifier: GPL-3.0-or-later
// How fast the page is in a browser, beside the command on the same scenario.
// Told by speed.sh.
// usage: node speed.mjs PAGE PROGRAM, at the root; ROUNDS=9 for more than 5
import { spawnSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";

const [, , file, program] = process.argv;
const page_file = resolve(file);
const { chromium } = createRequire(page_file)("playwright-core");
const ROUNDS = +(process.env.ROUNDS ?? 5);
const demo = readFileSync("scenarios/demo.yaml", "utf8");

// ---- the processes of the tab -----------------------------------------------------

// Those of this program that show pages, with what they used: ms, MB.
function tabs() {
  const all = new Map();

  for (const pid of readdirSync("/proc").filter((name) => /^\d+$/.test(name))) try {
    const of = readFileSync(`/proc/${pid}/stat`, "utf8").split(") ")[1].split(" ");
    const words = readFileSync(`/proc/${pid}/cmdline`, "utf8");
    all.set(+pid, { parent: +of[1], ms: 10 * (+of[11] + +of[12]), page: words.includes("--type=renderer"),
      mb: (/^Pss: +(\d+)/m.exec(words.includes("--type=renderer") ? readFileSync(`/proc/${pid}/smaps_rollup`, "utf8") : "")?.[1] ?? 0) / 1024 });
  } catch {
    continue; // it has ended
  }
  return [...all].filter(([pid, { page }]) => {
    for (let at = pid; at > 1; at = all.get(at)?.parent ?? 0) if (at === process.pid) return page;
    return false;
  }).map(([, one]) => one);
}

const sum = (what) => tabs().reduce((all, one) => all + one[what], 0);

// ---- one round --------------------------------------------------------------------

const found = new Map(); // by what: each round's
const note = (what, value) => found.set(what, [...found.get(what) ?? [], value]);

async function timed(what, does) {
  const [begun, used] = [performance.now(), sum("ms")];

  await does();
  note(`${what}, ms`, performance.now() - begun);
  note(`${what}, ms of processor`, sum("ms") - used);
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
  const watch = setInterval(() => { most = Math.max(most, sum("mb")); }, 300);

  page.setDefaultTimeout(600000);
  note("memory of an empty tab, MB", sum("mb"));
  await timed("first screen", () => page.goto(`file://${page_file}`));
  await timed("first verdict of five options, from the click", async () => {
    await page.click("#ui-demo");
    await stands();
  });
  note("the same by the page's clock, ms", +await page.getAttribute("#ui-told", "data-took"));
  note("of that the engine, ms", +await page.getAttribute("#ui-told", "data-engine"));
  await page.click("#ui-stop");
  await page.evaluate(() => { for (const e of document.querySelectorAll("#ui-cards details")) e.open = true; });
  for (const flow of ["60", "70", "80"]) {
    await page.fill("#ui-options-3-ventilator-flow", flow);
    await timed("one option changed", async () => {
      await page.press("#ui-options-3-ventilator-flow", "Tab");
      await page.waitForSelector("#ui-told.old", { timeout: 1000 }).catch(() => {}); // it may be done
      await stands();
    });
    note("one option changed, by the page's clock, ms", +await page.getAttribute("#ui-told", "data-took"));
    note("of that the engine, one option, ms", +await page.getAttribute("#ui-told", "data-engine"));
    await page.click("#ui-stop");
  }
  note("memory of the tab with an answer, MB", sum("mb"));
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
