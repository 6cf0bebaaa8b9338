// SPDX-License-Identifier: GPL-3.0-or-later
// The engine in a worker: it gets words and files, and tells what was printed and
// written.  What it has is gone when it is ended, what the page has is not.  A browser
// ends a worker that is at work only two seconds later: where it can hold a run while
// a message is read, a run is stopped by a message.

let module; // compiled
let memory = memoryOf();

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

function tell_kept(id, held) {
  for (const name of kept.list()) {
    if (!KEPT.test(name) || told.has(name)) continue;
    const bytes = kept.bytes(name).slice();

    if (held) told.add(name);
    else drop_one(name);
    postMessage({ id, kept: name, bytes, held }, [bytes.buffer]);
  }
}

function drop_all() {
  for (const name of kept.list()) drop_one(name);
  told.clear();
}

// What the page gave and a run has read: it reads none twice.
function drop_read(used) {
  for (const name of kept.opened()) {
    used.add(name);
    if (told.has(name)) drop_one(name);
  }
}

// The memory of a run never shrinks.  It stays a little for the next run, which is a
// fifth sooner in one that the system gave already; then a new one is, which holds
// nothing before it is used.
const SPARES = 1500, SPARES_READY = 20000; // ms
const AGAIN = 700; // ms: what was looked at before it was lost takes a second look
let spares, ran = 0; // bytes of the last run

function spare_after(ms) {
  clearTimeout(spares);
  spares = setTimeout(() => {
    memory = memoryOf();
    press();
    setTimeout(press, AGAIN);
  }, ms);
}

// A call comes soon.
function ready() {
  if (memory.buffer.byteLength < ran) memory = readied(ran);
  spare_after(SPARES_READY);
}

// So often it tells how far it is, what houses came to, and reads messages, ms: each
// message is work for the page.
const TELLS = 100, GIVES = 500, READS = 60;

let era = 0; // what was asked before the last stop is of one before
const door = new MessageChannel();

class Stopped extends Error {}

// Messages that came are read, now and then.
function turns(mine) {
  let at = performance.now();

  return () => {
    const now = performance.now();

    if (now < at + READS) return undefined;
    at = now;
    return new Promise((yes, no) => {
      door.port1.onmessage = () => mine === era ? yes() : no(new Stopped());
      door.port2.postMessage(0);
    });
  };
}

// What it printed of how far it is: "\rthe year of option 3,  45 %".
function listener({ id, holds }) {
  let told_at = performance.now(), given_at = told_at;

  return (last) => {
    const now = performance.now();

    if (now >= given_at + GIVES) {
      tell_kept(id, holds);
      given_at = now;
    }
    if (now < told_at + TELLS) return;
    const found = /^(.*), +(\d+) %$/.exec(words.decode(last).split("\r").at(-1));

    if (found === null) return;
    postMessage({ id, done: +found[2] / 100, what: found[1].trim() });
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

async function answer({ id, call, files, folder, keeps, holds }, mine) {
  const all = new Files(files);
  all.mount(KEPT_IN.slice(0, -1), kept);
  keep(keeps);
  clearTimeout(spares);
  const begun = performance.now(), used = new Set();
  const variables = ["COLUMNS=80"], heard = listener({ id, holds });
  const closed = holds ? undefined : () => drop_read(used);
  const { code, out, err } = HOLDS
    ? await run_held(module, all, call, { variables, heard, memory, turn: turns(mine), closed })
    : run(module, all, call, variables, heard, memory);

  return { id, code, holds, out: words.decode(out), err: words.decode(err).replace(/\r[^\n]*\r/g, ""),
    ms: performance.now() - begun, used: [...used, ...kept.opened()], files: written(all, folder) };
}

async function told_answer(data, mine) {
  try {
    if (mine !== era) throw new Stopped();
    const out = await answer(data, mine);
    tell_kept(data.id, data.holds); // before it is asked for
    ran = memory.buffer.byteLength;
    if (!data.holds) drop_all();
    postMessage(out, Object.values(out.files).map(({ buffer }) => buffer)); // handed over, not copied
  } catch (error) {
    if (!(error instanceof Stopped)) throw error;
    tell_kept(data.id, false); // what it came to so far
    drop_all();
  }
  postMessage({ over: true });
  if (!data.holds) spare_after(SPARES);
  press();
}

async function heed(data, mine) {
  try {
    if (data.packed !== undefined) {
      module = await compiled(data.packed);
      postMessage({ ready: module });
    } else if (data.module !== undefined) {
      module = data.module;
    } else if (data.call === undefined) {
      keep(data.keeps);
      ready();
    } else {
      await told_answer(data, mine);
    }
  } catch (error) {
    postMessage({ id: data.id, failed: `${error.name}: ${error.message}` });
  }
}

let before = Promise.resolve(); // one after the other

addEventListener("message", ({ data }) => {
  if (data.stop) {
    era += 1;
    postMessage({ heeds: true });
    return;
  }
  const mine = era;
  before = before.then(() => heed(data, mine));
});
