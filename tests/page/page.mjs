// SPDX-License-Identifier: GPL-3.0-or-later
// The page in a browser.  Told by test_page.sh.
// usage: node page.mjs PAGE PROGRAM, at the root; an empty folder in $WORK
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { copyFileSync, cpSync, existsSync, mkdirSync, readdirSync, readFileSync, truncateSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { basename, join, resolve } from "node:path";

const [, , file, program] = process.argv;
const page_file = resolve(file), command = resolve(program), work = process.env.WORK;
const { chromium } = createRequire(page_file)("playwright-core");
const LONG = 120000; // a machine with much else to do

function says(name, so, why = "") {
  console.log(so ? `ok ${name}` : `not ok ${name}`);
  if (!so) {
    console.log(String(why).slice(0, 900));
    process.exitCode = 1;
  }
}

// ---- both sides ----------------------------------------------------------------

// The command on the same scenario under the same name, once; beside: files that it
// names.
const natives = new Map();

function native(text, words = ["--quick"], beside = []) {
  const key = createHash("md5").update(JSON.stringify([text, words, beside])).digest("hex");
  const place = join(work, "native", key, "at");

  if (natives.has(key)) return natives.get(key);
  mkdirSync(place, { recursive: true });
  cpSync("weather", join(place, "../weather"), { recursive: true });
  for (const name of readdirSync("weather")) copyFileSync(join("weather", name), join(place, name));
  for (const from of beside) copyFileSync(from, join(place, basename(from)));
  writeFileSync(join(place, "house.yaml"), text);
  const begun = performance.now();
  const r = spawnSync(command, ["run", "house.yaml", "--out", "set", ...words],
    { cwd: place, env: {}, encoding: "utf8", maxBuffer: 1 << 26 });
  natives.set(key, { code: r.status, out: r.stdout, err: r.stderr, ms: performance.now() - begun,
    file: (name) => readFileSync(join(place, "set", name), "utf8") });
  return natives.get(key);
}

const browser = await chromium.launch({ executablePath: process.env.BROWSER,
  args: ["--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--disable-background-networking",
    "--process-per-site"] });
const wrong = []; // what no page may do

// The first page has a process of its own, and stays: those after it find there what
// the browser made of the engine, and begin in half the time.
const context = await browser.newContext({ acceptDownloads: true, offline: true });
context.on("request", (request) => {
  if (!/^(?:blob:|file:)/.test(request.url()) || request.url().startsWith("file:") && !request.url().endsWith(".html"))
    wrong.push(`request: ${request.url()}`);
});

async function opened(viewport = { width: 1280, height: 900 }, before = undefined, file = page_file) {
  const page = await context.newPage();

  page.setDefaultTimeout(LONG);
  page.on("console", (said) => wrong.push(`console ${said.type()}: ${said.text()}`));
  page.on("pageerror", (error) => wrong.push(`error: ${error.message}`));
  page.on("dialog", (dialog) => wrong.push(`dialog: ${dialog.message()}`));
  await page.setViewportSize(viewport);
  if (before !== undefined) await page.addInitScript(before);
  await page.goto(`file://${file}`);
  return page;
}

const stands = (page, how = "") => page.waitForSelector(`#ui-told[data-told${how}]`);

// The first answer, and no more: houses like it are drawn where they are looked at.
async function told(page) {
  await stands(page);
  await page.evaluate(() => {
    const stop = document.getElementById("ui-stop");
    if (!stop.hidden) stop.click();
  });
}

// No policy of the page lets a driver wait for what is so there.
async function until(page, so, words = undefined) {
  for (let i = 0; i < LONG / 20 && !await page.evaluate(so, words); i++) await page.waitForTimeout(20);
}

const text = async (page, id) => (await page.locator(id).textContent()) ?? "";
const upload = (page, id, name, bytes) => page.setInputFiles(id, { name, mimeType: "text/plain",
  buffer: Buffer.from(bytes) });

async function open(page, words, wait = told) {
  await page.evaluate(() => delete document.getElementById("ui-told").dataset.told);
  await upload(page, "#ui-open", "x.yaml", words);
  await wait(page);
}

async function saved(page, does) {
  const [download] = await Promise.all([page.waitForEvent("download"), does()]);
  return readFileSync(await download.path(), "utf8");
}

async function type(page, id, words) {
  await page.fill(id, words);
  await page.press(id, "Tab");
}

// Charts are built when they are looked at: so that all of an answer can be counted.
async function withCharts(page) {
  await page.evaluate(() => { document.getElementById("charts").parentElement.open = true; });
  await page.locator("#charts figure").first().waitFor();
}

const listed = (html) => [...html.matchAll(/<th scope="row"/g)].length;
const values = (x, way = "") => x !== null && typeof x === "object"
  ? Object.entries(x).flatMap(([key, value]) => values(value, `${way}.${key}`)) : [[way, x]];

// Each figure of one summary beside the other's: whole ones the same, the rest
// within 1e-6; what is a difference of like sums, within 1e-9.
function unlike(a, b) {
  const x = values(a), y = new Map(values(b));
  const near = (p, q) => Math.abs(p - q) <= Math.max(1e-6 * Math.abs(q), 1e-9);

  if (x.length !== y.size) return [`${x.length} and ${y.size} values`];
  return x.filter(([way, value]) => !way.includes("sha256") && (typeof value === "number"
    ? !near(value, y.get(way)) : value !== y.get(way))).map(([way, value]) => `${way}: ${value}, ${y.get(way)}`);
}

// Seven to thirteen options each, or others like them: with EVERY=1 alone.
const MANY = /^(?:atlas|cores_.*|ducts_cold|ducts_humid|blower_modes|demo|cold_winter|dry_mountain|humid_coast)\.yaml$/;

// ---- each shipped scenario -------------------------------------------------------

const demo = readFileSync("scenarios/demo.yaml", "utf8");
{
  const page = await opened();
  const begun = performance.now();

  await page.click("#ui-demo");
  await stands(page);
  const first = performance.now() - begun;
  const n = native(demo);
  says("the invented house: the command's words", (await text(page, "#as-text")) === n.out, await text(page, "#as-text"));
  console.log(`   first verdict of five options ${first.toFixed(0)} ms from the click, ` +
    `the engine's part ${await page.getAttribute("#ui-told", "data-engine")}; the command ${n.ms.toFixed(0)} ms`);
  await page.click("#ui-stop");
  says("stopped, it says so", (await text(page, "#ui-status")).startsWith("Stopped"));
  await page.click("#ui-remember");
  await page.locator("#ui-cards details.card").nth(3).locator("summary").first().click();
  const changed = performance.now();
  await type(page, "#ui-options-3-ventilator-flow", "60");
  await page.waitForSelector("#ui-told.old");
  await page.waitForSelector("#ui-told:not(.old)");
  console.log(`   one option's change ${(performance.now() - changed).toFixed(0)} ms`);
  says("a change is answered at once", (await text(page, "#as-text")) ===
    native(demo.replace("    ventilator:\n      core: enthalpy_plate\n      sensible: 72 % at 100 cfm\n" +
      "      moisture: 50 % at 100 cfm\n      power: 62 W\n    costs: {install: 6900",
    "    ventilator:\n      core: enthalpy_plate\n      sensible: 72 % at 100 cfm\n      moisture: 50 % at 100 cfm\n" +
      "      power: 62 W\n      flow: 60 cfm\n    costs: {install: 6900")).out, await page.inputValue("#ui-yaml"));
  const moved = await page.locator("#compared tbody tr:has(td.moved)").allTextContents();
  says("against the answer remembered that option alone moved", moved.length === 1 &&
    moved[0].startsWith(`enthalpy core${n.out.match(/^4 enthalpy core +([\d,]+)/m)[1]} \u2192 `), moved.join("\n"));
  await page.locator("#ui-cards details.card").nth(3).locator("button", { hasText: "Try other airflows" }).click();
  const slider = page.locator(".curve input");
  await slider.waitFor();
  await slider.press("End");
  const at150 = spawnSync(command, ["run", "scenarios/demo.yaml", "--quick", "--json", "--option", "enthalpy core", "--set",
    "options.enthalpy core.ventilator.flow=150 cfm"], { encoding: "utf8", maxBuffer: 1 << 26 });
  const humid = JSON.parse(at150.stdout).options.find(({ name }) => name === "enthalpy core").hours.too_humid;
  says("other airflows: the command's hours at the slider's end", (await text(page, ".curve output"))
    .startsWith(`150 cfm: ${humid.toLocaleString("en-US")} hours too humid, `), `${await text(page, ".curve output")} ${humid}`);
  await page.click("#ui-undo");
  says("undone, the text is as it was", (await page.inputValue("#ui-yaml")) === demo);
  await page.waitForSelector("#ui-told:not(.old)"); // else what is opened next may be taken for answered by this

  for (const name of readdirSync("scenarios").filter((name) => name.endsWith(".yaml") && (process.env.EVERY || !MANY.test(name)))) {
    const words = readFileSync(join("scenarios", name), "utf8");

    if (words.includes("../weather/")) {
      await upload(page, "#ui-open", name, words);
      await page.waitForSelector("#ui-weather-place-fault:not([hidden]), #ui-weather-file-fault:not([hidden])");
      const outside = /file: \.\.\/weather\/([\w.-]+)/.exec(words)[1];
      await page.setInputFiles("#ui-weather-file", join("weather", outside));
      await told(page);
      const n = native(words.replace(`../weather/${outside}`, outside));
      says(`${name}: its weather file asked for and dropped in, the command's words`,
        (await text(page, "#as-text")) === n.out, await text(page, "#as-text"));
      continue;
    }
    await open(page, words);
    const n = native(words);
    says(`${name}: the command's words and hours`, (await text(page, "#as-text")) === n.out,
      `${await text(page, "#as-text")}\n${n.out}`);
    says(`${name}: the text is as opened`, (await page.inputValue("#ui-yaml")) === words);
    await withCharts(page);
    says(`${name}: the report's rows and cautions`, await page.locator("#ui-told section:not(#compared) th[scope=row]").count() ===
      listed(n.file("report.html")) && await page.locator("#ui-told #stop li").count() ===
      [...(/<section class="stop"[^]*?<\/section>/.exec(n.file("report.html"))?.[0] ?? "").matchAll(/<li>/g)].length);
  }
}

// ---- one change after another ------------------------------------------------------

// What stands on the page after each is what the command makes of the text anew.
{
  const page = await opened();
  const flow = "#ui-options-3-ventilator-flow";
  const changes = [["an airflow", flow, "60"], ["another", flow, "75"], ["a price", "#ui-options-3-costs-install", "5000"],
    ["the first airflow again", flow, "60"], ["a limit", "#ui-limits-too_humid", "58"], ["people", "#ui-people-count", "2"],
    ["the place", "#ui-weather-place", "727450"], ["people again", "#ui-people-count", "4"]];

  await open(page, demo);
  await page.evaluate(() => { for (const e of document.querySelectorAll("details")) e.open = true; });
  const moved = new Set();
  for (const [what, id, words] of changes) {
    await page.evaluate(() => delete document.getElementById("ui-told").dataset.told);
    await type(page, id, words);
    // the second comes while houses are drawn
    await (moved.size === 0 ? stands : told)(page);
    const n = native(await page.inputValue("#ui-yaml"));
    const shown = await text(page, "#as-text");
    moved.add(shown);
    says(`${what}: the command's words`, n.code === 0 && shown === n.out, shown);
    const rows = await page.evaluate((html) => [document, new DOMParser().parseFromString(html, "text/html")].map((of) =>
      [...of.querySelectorAll("#options tbody tr")].map((row) => row.textContent.replace(/\s+/g, " ").trim()).join("\n")),
    n.file("report.html"));
    says(`${what}: the report's tables`, rows[0] === rows[1] && rows[0] !== "", rows.join("\n---\n"));
  }
  says("each change moved something", moved.size === changes.length, moved.size);
  await page.close();
}

// ---- air found at the grilles ------------------------------------------------------
{
  const page = await opened();
  const id = (row, key) => `#ui-options-3-ducts-grilles-${row}-${key}`;

  await open(page, demo);
  const card = page.locator("#ui-cards details.card").nth(3);
  await card.locator("summary").first().click();
  await card.locator(".grilles > summary").click();
  for (let i = 0; i < 3; i++) await card.locator("button", { hasText: "+ a grille" }).click();
  for (const [row, room, key, flow] of [[0, "bath", "stale_found", "61"], [1, "living room", "fresh_found", "9 ft2"],
    [2, "kitchen", "stale_found", "20"]]) {
    await type(page, id(row, "room"), room);
    await type(page, id(row, key), flow);
  }
  await page.waitForSelector(`${id(1, "fresh_found")}-fault:not([hidden])`);
  says("air found at a grille: a fault stands in its row", (await text(page, `${id(1, "fresh_found")}-fault`))
    .startsWith('"ft2" is no unit that fits') && await page.locator(`${id(0, "fresh_found")}-fault`).isHidden());
  await page.evaluate(() => delete document.getElementById("ui-told").dataset.told);
  await type(page, id(1, "fresh_found"), "48");
  await card.locator("button", { hasText: "Without grille 3" }).click();
  await told(page);
  const words = await page.inputValue("#ui-yaml");
  const n = native(words);
  says("air found at two grilles: the command's words", words.includes("[{room: bath, stale_found: 61 cfm}, " +
    "{room: living room, fresh_found: 48 cfm}]") && n.code === 0 && (await text(page, "#as-text")) === n.out, n.err);
  says("and the sketch of the ducts", await page.locator("#ui-told svg.sketch").count() ===
    [...n.file("report.html").matchAll(/<svg[^>]*class="[^"]*sketch/g)].length &&
    await page.locator("#ui-told svg.sketch .d-grille").count() > 0);
  await page.close();
}

// ---- what is worth knowing ---------------------------------------------------------
{
  const page = await opened({ width: 390, height: 844 });
  // two options: what is worth knowing here is of the house
  const some = demo.replace("options:", "run: {draws: 64}\noptions:").replace("people: {count: 4,", "people: {count: 4 (1 to 8),")
    .split(/(?=^ {2}- name: )/m).slice(0, 3).join("");

  await open(page, some, stands);
  await page.waitForSelector("#worth");
  writeFileSync(join(work, "some.yaml"), some);
  const { inputs } = JSON.parse(spawnSync(command, ["spread", join(work, "some.yaml"), "--json", "--draws", "64"],
    { encoding: "utf8", maxBuffer: 1 << 26 }).stdout);
  const most = Math.max(...inputs.filter(({ key, option }) => option === "" && !/^(?:ventilator|dehumidifier|control|costs|ducts)\./.test(key))
    .map(({ narrows_h: hours }) => hours ?? 0));
  const first = await page.locator("#worth li").first().textContent();
  says("worth knowing: the engine's hours, most first", first.endsWith(`: ${Number(most.toPrecision(2)).toLocaleString("en-US")} hours`),
    `${first} ${most}`);
  await page.locator("#worth a").first().click();
  says("each leads to its question, which says so too", await page.evaluate(() => document.activeElement.dataset.path !== undefined &&
    document.activeElement.closest(".field").querySelector(".note").textContent.includes("would narrow the answer by about")));
  await page.close();
}

// ---- houses like it sharpen what stands ------------------------------------------
{
  const page = await opened();
  const few = demo.replace("options:", "run: {draws: 8}\noptions:");

  await open(page, few, stands);
  await stands(page, "=sure");
  const n = native(few, []);
  says("eight houses like it: the command's words", (await text(page, "#as-text")) === n.out, await text(page, "#as-text"));
  await page.locator("#ui-status", { hasText: "Worked out." }).waitFor();
  // the first stays for a change that may come soon, and is then ended like the other
  const held = async () => page.workers().length !== 1 ? Infinity
    : page.workers()[0].evaluate(() => memory.buffer.byteLength).catch(() => Infinity); // it ended just now
  for (let i = 0; i < 300 && await held() !== 2 ** 23; i++) await page.waitForTimeout(100);
  says("then one worker waits, and gave back what it had", await held() === 2 ** 23, page.workers().length);
  const field = page.locator("#ui-house-floor_area");
  await field.dispatchEvent("input");
  for (let i = 0; i < 300 && await held() <= 2 ** 23; i++) await page.waitForTimeout(100);
  says("what is typed next finds one that ran", await held() > 2 ** 23 && page.workers().length === 1);
  const summary = JSON.parse(await saved(page, () => page.locator("#keep li", { hasText: "JSON" }).locator("a").click()));
  const other = unlike(summary, JSON.parse(n.file("summary.json")));
  says("every figure of it within 1e-6", other.length === 0, other.slice(0, 9).join("\n"));
  const hours = await saved(page, () => page.locator("#keep a", { hasText: "1 as it stands" }).click());
  says("the hours of an option to keep", hours.split("\n").length === n.file("hours-1-as-it-stands.csv").split("\n").length);
  const [shown] = await Promise.all([page.context().waitForEvent("page"),
    page.locator("#keep a", { hasText: "look" }).first().click()]);
  await shown.waitForSelector("#answer");
  says("the report opens by itself", (await shown.locator("#charts figure").count()) > 5);
  await shown.close();
  const chart = page.locator("details.part", { has: page.locator("#charts") });
  says("charts are not built before they are looked at", (await chart.locator("svg").count()) === 0);
  await chart.locator("> summary").click();
  await chart.locator("figure .tools").first().waitFor();
  says("and then as many as the report has, once", (await chart.locator("figure").count()) ===
    [.../<section id="charts"[^]*?<\/section>/.exec(n.file("report.html"))[0].matchAll(/<figure/g)].length && (await chart.locator("figure.zooms > .tools").count()) ===
    (await chart.locator("figure.zooms").count()));
  says("charts are the engine's, and alive", (await chart.locator("figure .tools").count()) > 0 &&
    (await chart.locator("svg[role=img]").count()) > 5);
  await page.click("#ui-units button[value=si]");
  await told(page);
  says("in SI", (await text(page, "#as-text")) === native(few, ["--quick", "--units", "si"]).out);
  await page.close();
}

// ---- someone new -------------------------------------------------------------------

const HOUSES = [["Duluth", "1450", "2"], ["Miami Intl", "2100", "4"], ["Albuquerque", "1700", "3"]];
for (const [town, area, bedrooms] of HOUSES) {
  const page = await opened({ width: 390, height: 844 });

  await page.waitForSelector("#ui-places option", { state: "attached" });
  const place = await page.locator(`#ui-places option[value^="${town}"]`).first().getAttribute("value");
  const filled = [["#ui-weather-place", place], ["#ui-house-floor_area", area], ["#ui-house-bedrooms", bedrooms]];
  for (const [id, words] of filled) await type(page, id, words);
  await page.click("#ui-go");
  await told(page);
  says("cautions first, and the answer in sight after a click on a phone",
    (await page.locator("#ui-told > section").first().getAttribute("id")) === "stop" &&
    await page.locator("#stop").evaluate((e) => e.getBoundingClientRect().top < innerHeight));
  const words = await saved(page, () => page.click("#ui-save"));
  const n = native(words);
  says(`someone new in ${place}: ${filled.length} fields and 1 click to the command's verdict on the file saved`,
    n.code === 0 && (await text(page, "#as-text")) === n.out && (await text(page, "#answer")).includes("Wrong:"),
    `${n.err}\n${await text(page, "#as-text")}`);
  says("nothing runs out of the screen", await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth));
  await page.close();
}

// ---- what is wrong -----------------------------------------------------------------
{
  const page = await opened();

  await page.click("#ui-go");
  await page.waitForSelector("#ui-faults:not([hidden])");
  says("nothing told: each fault at its field", (await text(page, "#ui-weather-place-fault")).startsWith("no weather") &&
    (await text(page, "#ui-house-floor_area-fault")).includes("is required and missing") &&
    (await text(page, "#ui-house-bedrooms-fault")).includes("is required and missing"));
  await type(page, "#ui-weather-place", "springfield");
  await type(page, "#ui-house-floor_area", "big");
  await type(page, "#ui-house-bedrooms", "-2");
  await type(page, "#ui-house-airtightness", "3 ducks");
  await page.locator("#ui-cards details.card").nth(1).locator("summary").first().click();
  await type(page, "#ui-options-1-ventilator-flow", "9 ft2");
  await page.waitForSelector("#ui-options-1-ventilator-flow-fault:not([hidden])");
  const n = native(await page.inputValue("#ui-yaml"));
  const beside = await Promise.all(["weather-place", "house-floor_area", "house-bedrooms", "house-airtightness",
    "options-1-ventilator-flow"].map((id) => text(page, `#ui-${id}-fault`)));
  says("five wrong fields: the command's words beside each", n.code === 1 && beside.filter((words) => words !== "" &&
    n.err.includes(words)).length === 5 && n.err.trim().split("\n").length === 5, `${beside.join("\n")}\n${n.err}`);
  says("what was typed stands", (await page.inputValue("#ui-house-floor_area")) === "big" &&
    (await page.inputValue("#ui-house-airtightness")) === "3 ducks" &&
    (await page.getAttribute("#ui-house-floor_area", "aria-invalid")) === "true");
  await page.fill("#ui-house-floor_area", "190");
  await page.evaluate(() => document.querySelector('#ui-units [value="si"]').click()); // the field keeps the focus
  says("what is being typed stands while all fields are shown anew",
    await page.getAttribute('#ui-units [value="si"]', "aria-pressed") === "true" &&
    (await page.inputValue("#ui-house-floor_area")) === "190");
  await page.evaluate(() => document.querySelector('#ui-units [value="us"]').click());
  await type(page, "#ui-weather-place", "722020");
  await type(page, "#ui-house-floor_area", "1900");
  await type(page, "#ui-house-bedrooms", "3");
  await type(page, "#ui-house-airtightness", "");
  await type(page, "#ui-options-1-ventilator-flow", "");
  await told(page);
  says("put right, no fault is left", await page.locator("#ui-faults").isHidden() &&
    (await page.locator("[aria-invalid]").count()) === 0);

  await type(page, "#ui-options-1-name", "as it stands");
  await page.waitForSelector("#ui-faults:not([hidden])");
  says("old figures are greyed, not taken away", (await page.getAttribute("#ui-told", "class")) === "old" &&
    (await page.locator("#answer").count()) === 1);

  const names = '<img src=x onerror=alert(1)></script>';
  await page.click("#ui-undo");
  await type(page, "#ui-options-1-name", names);
  await told(page);
  says("names with markup are words", (await page.locator("#ui-told img, #ui-told script").count()) === 1 &&
    (await text(page, "#options")).includes("<img src=x"));
  for (const [what, words] of [["100,000 brackets", "[".repeat(100000)], ["an anchor", "a: &b [*b]\n"],
    ["no text", "\u0000\u0001\uffff"], ["a NaN", demo.replace("1900 ft2", "nan ft2")]]) {
    await upload(page, "#ui-open", "odd.yaml", words);
    await page.waitForSelector("#ui-faults:not([hidden])");
    says(`${what}: told, kept, alive`, (await page.inputValue("#ui-yaml")).length > 0 &&
      (await text(page, "#ui-faults")).length > 10);
  }
  await open(page, demo);
  await page.click("#ui-new");
  says("begun anew, nothing stands", (await text(page, "#ui-told")) === "" &&
    (await page.inputValue("#ui-house-floor_area")) === "" && await page.locator("#ui-faults").isHidden());
  await page.click("#ui-undo");
  await open(page, demo);
  says("and then the demo again", (await text(page, "#answer")).includes("Wrong:"));

  writeFileSync(join(work, "big.csv"), "");
  truncateSync(join(work, "big.csv"), 65 * 2 ** 20);
  await page.setInputFiles("#ui-log-file", join(work, "big.csv"));
  await page.waitForTimeout(200);
  says("65 MB: refused by size", (await text(page, "#ui-status")).includes("the most that is read is 64 MB"));

  await upload(page, "#ui-log-file", "my log.csv", "time,temperature (degC),relative humidity (%)\nnot a time,1,2\n");
  await page.waitForSelector("#ui-log-file-fault:not([hidden]), #ui-faults:not([hidden])");
  says("a log that is none: the engine's words beside it", (await text(page, "#ui-log-file-fault"))
    .startsWith("my_log.csv:2:1: time: "), await text(page, "#ui-faults"));
  await page.close();
}

// ---- a logger's file -----------------------------------------------------------------
{
  const page = await opened();
  const rows = native(demo).file("hours-1-as-it-stands.csv").trim().split("\n").slice(1, 1500).map((row) => {
    const [, month, day, hour, temperature, humidity] = row.split(",");
    return `2023-${month.padStart(2, "0")}-${day.padStart(2, "0")} ${hour.padStart(2, "0")}:00,${temperature},${humidity}`;
  });

  await open(page, demo);
  await upload(page, "#ui-log-file", "mine.csv", `time,temperature (degC),relative humidity (%)\n${rows.join("\n")}\n`);
  await page.locator("#ui-told:not(.old)", { hasText: "mine.csv" }).waitFor();
  says("a logger's file is laid over the model", (await text(page, "#ui-told")).includes("mine.csv") &&
    (await page.inputValue("#ui-yaml")).includes("file: mine.csv"), await text(page, "#ui-faults"));
  await page.close();
}

// ---- files as they come ---------------------------------------------------------------

// Dropped on the page, told what they are: the command's words of the same, a
// verdict or what is wrong with it.
const data = process.env.DEW_DATA ?? "../shared/data";
const measured = (folder) => existsSync(join(data, folder))
  ? readdirSync(join(data, folder)).filter((name) => /\.(?:csv|gz)$/.test(name)).map((name) => join(data, folder, name)) : [];
const files = [["Weather outdoors", measured("weather/observed")], ["A logger indoors", measured("houses")]];
if (files.every(([, list]) => list.length === 0)) console.log(`skip files as they come: no ${data}`);
const dropped = files.every(([, list]) => list.length === 0) ? undefined : await opened();
for (const [what, list] of files) for (const from of list) {
  const page = dropped;
  const bare = "title: x\nweather: {place: 722020}\nhouse: {floor_area: 1900 ft2, bedrooms: 3}\noptions:\n  - name: as it stands\n";

  await open(page, bare);
  await page.evaluate(() => delete document.getElementById("ui-told").dataset.told);
  await page.evaluate(([name, base64]) => {
    const dataTransfer = new DataTransfer();
    dataTransfer.items.add(new File([Uint8Array.from(atob(base64), (c) => c.charCodeAt(0))], name));
    document.body.dispatchEvent(new DragEvent("drop", { dataTransfer, bubbles: true, cancelable: true }));
  }, [basename(from), readFileSync(from).toString("base64")]);
  await page.locator("#ui-which button", { hasText: what }).click();
  await page.waitForSelector("#ui-told[data-told], #ui-faults:not([hidden])");
  const n = native(await page.inputValue("#ui-yaml"), ["--quick"], [from]);
  const faults = `${await text(page, "#ui-faults")} ${(await page.locator(".fault").allTextContents()).join(" ")}`;
  const lines = n.err.split("\n").filter((line) => line.startsWith("dewledger: ") && !line.includes(": note:"))
    .map((line) => line.replace(/^dewledger: (?:house\.yaml:[\d:]* )?(?:[a-z_.]+: )?/, ""));
  says(`${basename(from)} dropped, ${n.code === 0 ? "the command's words" : "the command's faults"}`, n.code === 0
    ? (await text(page, "#as-text")) === n.out : n.code === 1 && lines.length > 0 && lines.every((line) => faults.includes(line)),
  `${n.err}\n${faults}\n${n.code === 0 ? await text(page, "#as-text") : ""}`);
}
await dropped?.close();

// ---- a house inside ------------------------------------------------------------------
{
  const out = join(work, "house.html"), from = "scenarios/marine_mild.yaml";
  const made = spawnSync(command, ["page", from, "--out", out], { encoding: "utf8" });
  const page = await opened(undefined, undefined, out);

  says("a page with a house in it is written", made.status === 0, made.stderr);
  await told(page);
  says("it opens with the verdict, and the text as it was", (await text(page, "#as-text")) ===
    native(readFileSync(from, "utf8")).out && (await page.inputValue("#ui-yaml")) === readFileSync(from, "utf8"),
  await text(page, "#as-text"));
  await page.close();
}

// ---- two workers for one answer --------------------------------------------------------
{
  const page = await opened(undefined, () => {
    const post = Worker.prototype.postMessage, all = [];

    Object.defineProperty(Navigator.prototype, "hardwareConcurrency", { get: () => 4 });
    globalThis.marches = [];
    Worker.prototype.postMessage = function (data, ...more) {
      if (!all.includes(this)) all.push(this);
      if (data.call?.includes("--quick"))
        marches.push(`${all.indexOf(this)}: ${data.files["house.yaml"].match(/- name: /g).length} options, ` +
          `${data.keeps.give.length} given`);
      return post.call(this, data, ...more);
    };
  });
  const marches = () => page.evaluate(() => marches.splice(0).join("; "));

  await page.click("#ui-demo");
  await told(page, "=likely");
  says("five options are marched by two workers, and told by one, which is given what the other's houses came to",
    await marches() === "0: 3 options, 0 given; 1: 2 options, 0 given; 0: 5 options, 6 given");
  says("as the command tells them", (await text(page, "#as-text")) === native(demo, ["--quick"]).out);
  await page.evaluate(() => { for (const e of document.querySelectorAll("#ui-cards details")) e.open = true; });
  await page.evaluate(() => delete document.getElementById("ui-told").dataset.told);
  await type(page, "#ui-options-3-ventilator-flow", "60");
  await told(page);
  says("a change by the one that told them", (await marches()).startsWith("0: 5 options"));
  await page.close();
}

// ---- what is stopped gets out of the way ---------------------------------------------
{
  // each message to a worker and from one, by the worker's number
  const listens = () => {
    const post = Worker.prototype.postMessage, end = Worker.prototype.terminate, all = [];

    globalThis.words = [];
    globalThis.deaf = undefined; // the worker that hears nothing
    const of = (worker, word) => words.push(`${all.indexOf(worker)} ${word}`);
    Worker.prototype.postMessage = function (data, ...more) {
      if (!all.includes(this)) {
        all.push(this);
        this.addEventListener("message", ({ data: said }) => {
          if (said.heeds) of(this, "heeds");
          if (said.over) of(this, "over");
        });
      }
      if (data.stop) of(this, "stop");
      if (data.call?.[0] === "run") of(this, data.call.includes("--quick") ? "likely" : "houses");
      if (deaf !== all.indexOf(this)) post.call(this, data, ...more);
    };
    Worker.prototype.terminate = function () {
      of(this, "ends");
      return end.call(this);
    };
  };
  const page = await opened(undefined, listens);
  const at = (word, times = 1) => until(page, ([is, often]) => words.filter((one) => one === is).length >= often, [word, times]);
  const asked = () => page.evaluate(() => {
    delete document.getElementById("ui-told").dataset.told;
    words.length = 0;
    document.getElementById("ui-go").click();
  });
  const heard = async () => (await page.evaluate(() => words)).join(", ");

  await at("0 over", 2); // places and keys
  await page.click("#ui-demo");
  await at("0 likely");
  await page.waitForTimeout(300); // it marches
  await asked();
  await stands(page, "=likely");
  const first = await heard();
  says("a march that is stopped ends within its worker, which answers what is asked next",
    first.startsWith("0 stop, 0 likely, 0 heeds, 0 over") && !first.includes("0 ends"), first);
  says("and as the command does", (await text(page, "#as-text")) === native(demo, ["--quick"]).out);

  await at("1 houses");
  await page.waitForTimeout(1500); // what there is to read is read
  await page.evaluate(() => { words.length = 0; });
  await page.click("#ui-stop");
  await at("1 ends");
  says("houses like it end when they are told to, their worker then", (await heard()) === "1 stop, 1 heeds, 1 ends, 1 over",
    await heard());

  await page.evaluate(() => {
    deaf = 0;
    document.getElementById("ui-go").click();
  });
  await asked();
  await stands(page, "=likely");
  const late = await heard();
  says("a worker that does not heed is ended, and another answers", late.startsWith("0 stop, 0 likely, 0 ends, 2 likely") && (await text(page, "#as-text")) === native(demo, ["--quick"]).out, late);
  await page.close();
}

{
  const page = await opened(undefined, () => {
    const Plain = Blob, post = Worker.prototype.postMessage, end = Worker.prototype.terminate;

    globalThis.ended = globalThis.runs = 0;
    delete WebAssembly.Suspending; // and so in each worker
    globalThis.Blob = class extends Plain {
      constructor(parts, how) {
        super(how?.type === "text/javascript" ? ["delete WebAssembly.Suspending;\n", ...parts] : parts, how);
      }
    };
    Worker.prototype.postMessage = function (data, ...more) {
      if (data.call?.[0] === "run") runs += 1;
      return post.call(this, data, ...more);
    };
    Worker.prototype.terminate = function () {
      ended += 1;
      return end.call(this);
    };
  });

  await page.click("#ui-demo");
  await until(page, () => runs > 0);
  await page.waitForTimeout(300); // it marches
  await page.evaluate(() => { ended = 0; });
  await page.click("#ui-go");
  await stands(page);
  says("where a run cannot be held its worker is ended, and another tells the command's words",
    await page.evaluate(() => ended) > 0 && (await text(page, "#as-text")) === native(demo, ["--quick"]).out);
  await page.close();
}

// ---- an engine that breaks -----------------------------------------------------------
{
  const page = await opened(undefined, () => {
    const post = Worker.prototype.postMessage;
    let broken = false;

    Worker.prototype.postMessage = function (data) {
      const breaks = !broken && data.call?.[0] === "run";
      if (breaks) broken = true;
      return post.call(this, breaks ? { ...data, files: { "house.yaml": 7 } } : data);
    };
  });

  await page.click("#ui-demo");
  await page.locator("#ui-status", { hasText: "Nothing that you typed is lost" }).waitFor();
  says("a trap is told, and the text stands", (await page.inputValue("#ui-yaml")) === demo);
  await page.click("#ui-go");
  await told(page);
  says("asked again it answers", (await text(page, "#answer")).includes("Wrong:"));
  await page.close();
}

// ---- by keyboard, by name ------------------------------------------------------------
{
  const page = await opened();
  const nameless = await page.evaluate(() => [...document.querySelectorAll("input, select, textarea, button")]
    .filter((e) => !(e.labels?.length > 0) && !e.getAttribute("aria-label") && e.textContent.trim() === "")
    .map((e) => e.outerHTML.slice(0, 80)));

  says("each field and button has a name", nameless.length === 0, nameless.join("\n"));
  const reached = new Set();
  for (let i = 0; i < 70; i++) {
    await page.keyboard.press("Tab");
    reached.add(await page.evaluate(() => document.activeElement.id || document.activeElement.textContent));
  }
  says("place, area, bedrooms and the answer are reached by Tab", ["ui-weather-place", "ui-house-floor_area",
    "ui-house-bedrooms", "ui-go"].every((id) => reached.has(id)), [...reached].join());
  await page.close();
}
// Each text beside what lies under it, by WCAG's formula: 4.5 at least.
function pale() {
  const numbers = (colour) => colour.match(/[\d.]+/g).map(Number);
  const light = (colour) => numbers(colour).slice(0, 3).map((c) => c / 255 <= 0.04045 ? c / 255 / 12.92
    : ((c / 255 + 0.055) / 1.055) ** 2.4).reduce((sum, c, i) => sum + c * [0.2126, 0.7152, 0.0722][i], 0);
  const under = (e) => {
    const colour = getComputedStyle(e).backgroundColor;
    return (numbers(colour)[3] ?? 1) > 0 ? colour : e.parentElement === null ? "rgb(255, 255, 255)" : under(e.parentElement);
  };

  return [...document.querySelectorAll("body *:not(svg, svg *, script)")].filter((e) => e.checkVisibility() && !e.disabled &&
    [...e.childNodes].some((n) => n.nodeType === 3 && n.textContent.trim() !== "")).map((e) => {
    const [a, b] = [light(getComputedStyle(e).color), light(under(e))].sort((x, y) => y - x);
    return [(a + 0.05) / (b + 0.05), e.outerHTML.slice(0, 80)];
  }).filter(([ratio]) => !(ratio >= 4.5)).map((one) => one.join(" "));
}

{
  const page = await opened();
  const schemes = ["light", "dark"], faint = { light: [], dark: [] };
  const look = async () => {
    for (const colorScheme of schemes) {
      await page.emulateMedia({ colorScheme });
      faint[colorScheme].push(...await page.evaluate(pale));
    }
  };

  for (const width of [320, 390, 768, 1280, 1920]) {
    await page.setViewportSize({ width, height: 800 });
    const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);

    says(`${width} px wide: nothing runs out`, over <= 0, over);
  }
  await page.setViewportSize({ width: 1280, height: 900 });
  await page.click("#ui-go");
  await page.waitForSelector("#ui-faults:not([hidden])");
  await look();
  await open(page, demo);
  await look();
  for (const scheme of schemes)
    says(`${scheme}: each text stands out`, faint[scheme].length === 0, faint[scheme].join("\n"));
  await page.close();
}
says("no word on a console, no error, no dialog, no request", wrong.length === 0, wrong.join("\n"));
await browser.close();
