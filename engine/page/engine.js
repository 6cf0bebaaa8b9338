// SPDX-License-Identifier: GPL-3.0-or-later
// Two workers with the engine, one for what is asked at once and one for houses
// like this one.  Ending a worker alone gives its memory back: so each is ended when
// nothing more is asked of it, the first after a while, for a change that comes soon
// is answered sooner by one that ran before.  The compiled module is kept, as fast as
// it has become, so that the next stands at once.  What is at work is stopped by a
// message, where the browser can: one that is ended works on for two seconds, in the
// way of what is asked next.

import { HOLDS } from "./browser.js";

// What houses came to, by names that the engine gave: those used last, so many
// bytes of them.  It outlives a worker that is ended.
const MOST_KEPT = 24 * 2 ** 20;

class Kept {
  constructor() {
    this.all = new Map(); // the one used last stands last
    this.size = 0;
  }

  add(name, bytes, lane) {
    this.drop(name);
    this.all.set(name, { bytes, lane });
    this.size += bytes.length;
    for (const [oldest] of this.all) {
      if (this.size <= MOST_KEPT) break;
      this.drop(oldest);
    }
  }

  drop(name) {
    const bytes = this.all.get(name)?.bytes;

    if (bytes === undefined) return;
    this.size -= bytes.length;
    this.all.delete(name);
    bytes.buffer.transfer?.(0); // its memory goes back at once
  }

  use(names) {
    for (const name of names) {
      const one = this.all.get(name);
      if (one === undefined) continue;
      this.all.delete(name);
      this.all.set(name, one);
    }
  }
}

// A worker that answered waits so long for the next change, ms; one that is to stop
// is ended after so long.
const REST = 20000, HEEDS = 2000;

const buffersOf = ({ give }) => give.map(([, { buffer }]) => buffer);

// Words of a run that is to keep what houses come to.
export const KEEPS = ["--kept", ".kept"];

// shares: what the first lane used for its last answer is told to it too; stands: a
// worker waits for the next call; cold: it ran nothing yet.
class Lane {
  constructor(engine, { shares, stands }) {
    this.engine = engine;
    this.shares = shares;
    this.stands = stands;
    this.waiting = new Map();
    this.next = 0;
  }

  start() {
    this.has = new Set(); // of what is kept
    this.cold = true;
    this.worker = new Worker(this.engine.url);
    this.worker.onmessage = ({ data }) => this.heard(data);
    this.worker.onerror = (event) => this.fail(event.message ?? "the worker does not start");
    this.worker.postMessage(this.engine.module === undefined ? { packed: this.engine.packed }
      : { module: this.engine.module });
  }

  heard(data) {
    const waited = this.waiting.has(data.id); // else it was stopped

    if (data.ready !== undefined) this.engine.is(data.ready);
    else if (data.heeds) clearTimeout(this.ends);
    else if (data.kept !== undefined) this.keep(data, waited);
    else if (data.over !== undefined) this.over();
    else if (data.id !== undefined && !waited) return;
    else if (data.done !== undefined) this.progress?.(data.done, data.what);
    else if (data.failed !== undefined) this.fail(data.failed);
    else {
      if (!data.holds) this.has.clear();
      this.engine.kept.use(data.used);
      if (this.stands && data.used.length > 0) this.engine.newest = new Set(data.used);
      this.settle(data.id, (one) => one.yes(data));
    }
  }

  // What the worker lacks of what is kept, and what is kept no more.  Copies, to be
  // handed over: a message that copies them takes twice as long.
  changes() {
    const { all } = this.engine.kept;
    const give = [...all].filter(([name, { lane }]) => !this.has.has(name) &&
      (lane === this || (this.shares && this.engine.newest.has(name))))
      .map(([name, { bytes }]) => [name, bytes.slice()]);
    const drop = [...this.has].filter((name) => !all.has(name));

    for (const [name] of give) this.has.add(name);
    for (const name of drop) this.has.delete(name);
    return { give, drop };
  }

  keep({ kept, bytes, held }, waited) {
    if (held && waited) this.has.add(kept);
    this.engine.kept.add(kept, bytes, this.helps ?? this);
  }

  over() {
    if (this.waiting.size > 0) return;
    if (!this.stands) return this.stop();
    clearTimeout(this.rest);
    this.rest = setTimeout(() => this.renew(), REST);
  }

  renew() {
    this.stop();
    this.start();
  }

  settle(id, how) {
    const one = this.waiting.get(id);
    this.waiting.delete(id);
    if (one !== undefined) how(one);
  }

  fail(why) {
    this.stop(why);
    this.engine.fails?.(why);
  }

  refuse(why) {
    for (const id of [...this.waiting.keys()]) this.settle(id, (one) => one.no(new Error(why)));
  }

  // Ends the worker; those who wait are told why.
  stop(why = "stopped") {
    clearTimeout(this.rest);
    clearTimeout(this.ends);
    this.worker?.terminate();
    this.worker = undefined;
    this.refuse(why);
  }

  // Ends what runs.
  halt() {
    if (!HOLDS) return this.stop();
    this.refuse("stopped");
    this.has.clear();
    this.worker.postMessage({ stop: true });
    clearTimeout(this.ends);
    this.ends = setTimeout(() => this.again(), HEEDS);
  }

  // What it does not heed, another does.
  again() {
    const asked = [...this.waiting];

    this.waiting.clear();
    this.stop();
    if (asked.length > 0) this.start();
    for (const [id, one] of asked) {
      this.waiting.set(id, one);
      this.post(id, one.asked);
    }
  }

  // Something that takes its time, and that may be ended for what is asked next?
  get busy() { return [...this.waiting.values()].some(({ long }) => long); }

  // Hands over what a call will need, before it comes: it takes a tenth of a second.
  prepare() {
    if (this.worker === undefined) return;
    const keeps = this.changes();

    if (keeps.give.length + keeps.drop.length === 0) return;
    this.worker.postMessage({ keeps }, buffersOf(keeps));
  }

  // The command with these words; folder: whose files are to come back; long: it
  // takes its time; helps: the lane for which houses are marched; holds: the worker
  // holds what houses came to for the next call, which comes at once.
  call(words, files, { folder, progress, helps, holds = false, long = folder !== undefined } = {}) {
    if (this.worker === undefined) this.start();
    clearTimeout(this.rest);
    if (words[0] === "run") this.cold = false;
    this.progress = progress;
    this.helps = helps;
    const id = ++this.next;
    return new Promise((yes, no) => {
      const asked = { call: words, files, folder, holds };
      this.waiting.set(id, { yes, no, long, asked });
      this.post(id, asked);
    });
  }

  post(id, asked) {
    const keeps = asked.call.includes(KEEPS[0]) ? this.changes() : { give: [], drop: [] };
    this.worker.postMessage({ id, ...asked, keeps }, buffersOf(keeps));
  }
}

// A module of one function that gives a vector: does this browser know them?
const VECTORS = new Uint8Array([0, 97, 115, 109, 1, 0, 0, 0, 1, 5, 1, 96, 0, 1, 123,
  3, 2, 1, 0, 10, 10, 1, 8, 0, 65, 0, 253, 15, 253, 98, 11]);
export const which = () => WebAssembly.validate(VECTORS) ? "simd" : "plain";

// In place: a list of a million numbers on the way would be ten times as large.
export function bytesOf64(base64) {
  if (Uint8Array.fromBase64 !== undefined) return Uint8Array.fromBase64(base64);
  const text = atob(base64), bytes = new Uint8Array(text.length);

  for (let i = 0; i < text.length; i++) bytes[i] = text.charCodeAt(i);
  return bytes;
}

// packed: the module, gzipped.
export class Engine {
  constructor(code, packed) {
    this.url = URL.createObjectURL(new Blob([code], { type: "text/javascript" }));
    this.packed = packed;
    this.kept = new Kept();
    this.newest = new Set(); // names of the last answer's
    this.now = new Lane(this, { shares: false, stands: true });
    this.later = new Lane(this, { shares: true, stands: false });
    this.ready = new Promise((yes) => { this.yes = yes; });
    this.now.start();
  }

  // Would the last answer of the first worker be told without a march?
  get stands() { return this.newest.size > 0 && [...this.newest].every((name) => this.kept.all.has(name)); }

  is(module) {
    this.module = module;
    this.packed = undefined;
    this.yes();
  }
}
