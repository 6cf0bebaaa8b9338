// SPDX-License-Identifier: GPL-3.0-or-later
// The engine in a worker: it gets words and files, and tells what was printed and
// written.  It is ended when it has answered, and to stop it: what it had is then
// gone, what the page has is not.

let module; // compiled
const memory = memoryOf();

// Compiled as it is unpacked: neither its text nor its bytes are held whole.
function compiled(packed) {
  const stream = new Response(packed).body.pipeThrough(new DecompressionStream("gzip"));

  return WebAssembly.compileStreaming(new Response(stream, { headers: { "content-type": "application/wasm" } }));
}

const words = new TextDecoder();

// What houses came to, for those that did not change, as the page gave it.  What
// is new goes to the page, so that it outlives this worker; it is held here only
// where the next call comes at once.
const kept = new Files(), told = new Set();
const KEPT = /^[0-9a-f]{64}$/, KEPT_IN = ".kept/";

function drop_one(name) {
  const bytes = kept.bytes(name);

  kept.drop(name);
  if (bytes !== undefined) spend(bytes);
}

function keep({ give, drop }) {
  for (const [name, bytes] of give) {
    kept.put(name, bytes);
    told.add(name);
  }
  for (const name of drop) {
    drop_one(name);
    told.delete(name);
  }
}

function tell_kept(held) {
  for (const name of kept.list()) {
    if (!KEPT.test(name) || told.has(name)) continue;
    const bytes = kept.bytes(name).slice();

    if (held) told.add(name);
    else drop_one(name);
    postMessage({ kept: name, bytes, held }, [bytes.buffer]);
  }
}

function drop_kept() {
  for (const name of kept.list()) drop_one(name);
  told.clear();
}

// A browser looks for what is lost when much is asked of it, not when a worker
// waits: asked for and let go untouched, this much makes it look, and some 50 MB of
// code and instances that ran come back.  One that has not so much says no.
const PRESSES = 4, PRESS = 2 ** 26;

function press() {
  try {
    for (let i = 0; i < PRESSES; i++) new ArrayBuffer(PRESS);
  } catch {
    // then it has just looked
  }
}

// So often it tells how far it is, and what houses came to, ms: each message is
// work for the page.
const TELLS = 100, GIVES = 500;

// What it printed of how far it is, piece by piece: "\rthe year of option 3,  45 %".
function listener(held) {
  let line = "", told_at = performance.now(), given_at = told_at;

  return (bytes) => {
    const now = performance.now();

    line = (line + words.decode(bytes)).split("\r").at(-1);
    if (now >= given_at + GIVES) {
      tell_kept(held);
      given_at = now;
    }
    if (now < told_at + TELLS) return;
    const found = /^(.*), +(\d+) %$/.exec(line);

    if (found === null) return;
    postMessage({ done: +found[2] / 100, what: found[1].trim() });
    told_at = now;
  };
}

// The files of a folder, if one is asked for; nothing else of them stays.
function written(files, folder) {
  const names = files.list().filter((name) => !name.startsWith(KEPT_IN));
  const out = folder === undefined ? {} : Object.fromEntries(names.filter((name) => name.startsWith(folder))
    .map((name) => [name.slice(folder.length), files.bytes(name).slice()]));

  for (const name of names) spend(files.bytes(name));
  return out;
}

function answer({ id, call, files, folder, keeps, holds }) {
  const all = new Files(files);
  all.mount(KEPT_IN.slice(0, -1), kept);
  keep(keeps);
  const begun = performance.now();
  const { code, out, err } = run(module, all, call, ["COLUMNS=80"], listener(holds), memory);

  return { id, code, holds, out: words.decode(out), err: words.decode(err).replace(/\r[^\n]*\r/g, ""),
    ms: performance.now() - begun, used: kept.opened(), files: written(all, folder) };
}

addEventListener("message", async ({ data }) => {
  try {
    if (data.packed !== undefined) {
      module = await compiled(data.packed);
      postMessage({ ready: module });
    } else if (data.module !== undefined) {
      module = data.module;
    } else if (data.call === undefined) {
      keep(data.keeps);
    } else {
      const out = answer(data);
      tell_kept(data.holds); // before it is asked for
      if (!data.holds) drop_kept();
      postMessage(out, Object.values(out.files).map(({ buffer }) => buffer)); // handed over, not copied
      postMessage({ over: true });
      press();
    }
  } catch (error) {
    postMessage({ id: data.id, failed: `${error.name}: ${error.message}` });
  }
});
