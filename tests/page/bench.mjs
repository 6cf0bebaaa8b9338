// SPDX-License-Identifier: GPL-3.0-or-later
// Told by bench.sh.
import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { gzipSync } from "node:zlib";

const [, , folder, program] = process.argv;
const { Files, run } = await import(process.env.WASI);
const ROUNDS = 5;

const scenario = "scenarios/demo.yaml";
const demo = () => new Files({ [scenario]: readFileSync(scenario) });
const words = ["run", scenario];

function best(what) {
  let least = Infinity;

  for (let i = 0; i < ROUNDS; i++) {
    const begun = performance.now();

    if (what() !== 0) throw new Error("it failed");
    least = Math.min(least, performance.now() - begun);
  }
  return least;
}

// The command has its threads, a module one; the module is compiled before.
const alone = best(() => spawnSync(program, words, { stdio: "ignore" }).status);
for (const which of ["plain", "simd"]) {
  const bytes = readFileSync(join(folder, `${which}.wasm`));
  const begun = performance.now();
  const module = new WebAssembly.Module(bytes);
  const compiled = performance.now() - begun;
  const ms = best(() => run(module, demo(), words).code);

  console.log(`${which}: ${bytes.length} bytes, ${gzipSync(bytes, { level: 9 }).length} gzipped, ` +
    `made ready in ${compiled.toFixed(0)} ms; the demo in ${ms.toFixed(0)} ms, ` +
    `${(ms / alone).toFixed(2)} times the command's ${alone.toFixed(0)}`);
  const bench = new WebAssembly.Module(readFileSync(join(folder, `bench-${which}.wasm`)));
  process.stdout.write(`${which}: ${Buffer.from(run(bench, demo(), [],
    ["BENCH_HOUSES=10"]).out).toString().split("\n")[0]}\n`);
}
