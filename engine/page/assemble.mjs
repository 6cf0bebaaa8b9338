// SPDX-License-Identifier: GPL-3.0-or-later
// The page out of its parts, the same bytes each time.
// usage: node assemble.mjs FOLDER OUT: of plain.wasm and simd.wasm; at the root.
import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { readFileSync, writeFileSync } from "node:fs";
import { Script } from "node:vm";

const [, , folder, out] = process.argv;
const MOST = 3 * 2 ** 20;
const text = (name) => readFileSync(name, "utf8");
const here = (name) => text(`engine/page/${name}`);

// Modules one after the other: what one hands on the next sees by its name.  In
// one block, a name that two of them give stops it here.
function joined(names) {
  const code = names.map(here).join("\n").replace(/^import [^;]*;\n/gm, "").replace(/^export /gm, "");

  new Script(`"use strict"; {\n${code}\n}`, { filename: names.join("+") });
  return code;
}

// In a <script>; no comment of licence is lost, for the page has its own.
function inert(code) {
  if (/<\/script|<!--/i.test(code)) throw new Error("a script may not end itself");
  return code;
}

// gzip -n: no name, no time.
const packed = (name) => execFileSync("gzip", ["-n", "-9", "-c", `${folder}/${name}.wasm`],
  { maxBuffer: 1 << 26 }).toString("base64");

const script = inert(joined(["yaml.js", "questions.js", "form.js", "curve.js", "compare.js", "result.js", "browser.js", "engine.js", "page.js"]));
const zooms = inert(text("engine/sheets/page.js"));
const hash = (code) => `'sha256-${createHash("sha256").update(code).digest("base64")}'`;
const parts = {
  POLICY: `default-src 'none'; script-src ${hash(script)} ${hash(zooms)} 'wasm-unsafe-eval'; ` +
    "style-src 'unsafe-inline'; worker-src blob:; base-uri 'none'; form-action 'none'",
  STYLE: ["engine/sheets/page.css", "engine/draw/chart.css", "engine/draw/ducts.css",
    "engine/page/page.css"].map(text).join(""),
  WORKER: inert(joined(["browser.js", "wasi.js", "worker.js"])),
  ZOOMS: zooms,
  INVENTED: inert(text("scenarios/demo.yaml")),
  PLAIN: packed("plain"),
  SIMD: packed("simd"),
  SCRIPT: script,
};
const page = here("page.html").replace(/@([A-Z]+)@/g, (_, name) => parts[name]);

if (Buffer.byteLength(page) > MOST) throw new Error(`${Buffer.byteLength(page)} bytes: above 3 MiB`);
writeFileSync(out, page);
