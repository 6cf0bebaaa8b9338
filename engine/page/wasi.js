// SPDX-License-Identifier: GPL-3.0-or-later
// What the command asks of its system, for a module in a browser's worker or in
// Node: files in memory, what it prints, the clock.  Nothing leaves the memory.
//
//     const files = new Files({ "house.yaml": text });
//     const { code, out, err } = run(module, files, ["run", "house.yaml"]);
//     files.list();    // every name
//     files.bytes("set/report.html");
//
// Each run is an instance of its own: what one leaves behind, but for its files,
// no other sees.  A module that traps throws; the files are then to be dropped.
// The calls are those of WASI preview 1; their numbers are its witx.

const OK = 0, BADF = 8, EXIST = 20, INVAL = 28, ISDIR = 31, NOENT = 44,
  NOTDIR = 54, NOTEMPTY = 55, SPIPE = 70;
const UNKNOWN = 0, WINDOW = 2, FOLDER = 3, FILE = 4; // kinds of what is open
const CREATE = 1, AS_FOLDER = 2, EXCLUSIVE = 4, EMPTIED = 8; // ways to open
const APPEND = 1;
const EVERY_RIGHT = 0x1fffffffn;
const PLACES = 0x24n; // seek and tell: by these a window is none
const LAST = 200; // bytes of what was printed that a listener is given
const ROOT = 3; // the first descriptor after the three that each program has

const coder = new TextEncoder();
const decoder = new TextDecoder();
const bytesOf = (what) => typeof what === "string" ? coder.encode(what) : what;

// Bytes that nobody needs any more: their memory goes back at once, not when the
// browser next looks for what is lost.
export function spend({ buffer }) { buffer.transfer?.(0); }

// ---- files ---------------------------------------------------------------------

let made = 0; // their numbers

function folder() {
  return { kind: FOLDER, names: new Map(), number: ++made, links: 1 };
}

function file(bytes) {
  return { kind: FILE, bytes, size: bytes.length, number: ++made, links: 1 };
}

// The folder that holds the last name of a path, and that name ("" for the
// start itself); a code where a step is missing or no folder.
function walk(from, path) {
  const way = [from];
  const steps = path.split("/").filter((step) => step !== "" && step !== ".");
  let last = "";

  for (const [i, step] of steps.entries()) {
    if (step === "..") {
      if (way.length > 1) way.pop();
    } else if (i === steps.length - 1) {
      last = step;
    } else {
      const next = way.at(-1).names.get(step);

      if (next === undefined) return { code: NOENT };
      if (next.kind !== FOLDER) return { code: NOTDIR };
      way.push(next);
    }
  }
  const at = way.at(-1);
  return { code: OK, at, name: last, node: last === "" ? at : at.names.get(last) };
}

export class Files {
  constructor(contents = {}) {
    this.root = folder();
    for (const [path, what] of Object.entries(contents)) this.put(path, what);
  }

  // what: bytes or text; folders on the way are made, and none is above the root.
  put(path, what) {
    const steps = path.split("/").filter((step) => !["", ".", ".."].includes(step));
    let at = this.root;

    for (const step of steps.slice(0, -1)) {
      if (!at.names.has(step)) at.names.set(step, folder());
      at = at.names.get(step);
    }
    at.names.set(steps.at(-1), file(bytesOf(what)));
  }

  // Another's files as a folder of these.
  mount(name, files) { this.root.names.set(name, files.root); }

  drop(path) { this.root.names.delete(path); }

  bytes(path) {
    const { node } = walk(this.root, path);
    return node?.kind === FILE ? node.bytes.subarray(0, node.size) : undefined;
  }

  text(path) {
    const bytes = this.bytes(path);
    return bytes === undefined ? undefined : decoder.decode(bytes);
  }

  // Names in the first folder that were opened since this was asked last.
  opened() {
    const found = [...this.root.names].filter(([, node]) => node.opened);

    for (const [, node] of found) node.opened = false;
    return found.map(([name]) => name);
  }

  list(at = this.root, before = "") {
    return [...at.names].flatMap(([name, node]) => node.kind === FOLDER
      ? this.list(node, `${before}${name}/`) : [before + name]);
  }
}

// ---- a run ---------------------------------------------------------------------

class Exit extends Error {
  constructor(code) {
    super(`exit ${code}`);
    this.code = code;
  }
}

// What is printed, as it comes.
function printed() {
  const node = file(new Uint8Array(0));
  return { node: { ...node, kind: UNKNOWN }, at: 0, flags: APPEND };
}

// The same of a window: the command tells how far it is.
function listened(heard) {
  const entry = printed();
  entry.node.kind = WINDOW;
  entry.heard = heard;
  return entry;
}

function write(node, at, bytes) {
  const end = at + bytes.length;

  if (end > node.bytes.length) {
    const more = new Uint8Array(Math.max(end, 2 * node.bytes.length, 4096));
    more.set(node.bytes.subarray(0, node.size));
    if (node.grown) spend(node.bytes); // nobody else has these
    node.bytes = more;
    node.grown = true;
  }
  node.bytes.set(bytes, at);
  node.size = Math.max(node.size, end);
}

class System {
  constructor(files, words, variables, heard) {
    this.lists = { args: words, environ: variables };
    this.out = printed();
    this.err = heard === undefined ? printed() : listened(heard);
    this.open = [printed(), this.out, this.err, { node: files.root, at: 0, flags: 0 }];
  }

  get view() { return new DataView(this.memory.buffer); }
  chunk(at, length) { return new Uint8Array(this.memory.buffer, at, length); }
  path(at, length) { return decoder.decode(this.chunk(at, length)); }

  // A list of (address, length) as chunks of memory.
  chunks(list, count) {
    const view = this.view;
    return Array.from({ length: count }, (_, i) => this.chunk(
      view.getUint32(list + 8 * i, true), view.getUint32(list + 8 * i + 4, true)));
  }

  walk(fd, at, length) {
    const from = this.open[fd]?.node;

    if (from === undefined) return { code: BADF };
    return from.kind === FOLDER ? walk(from, this.path(at, length)) : { code: NOTDIR };
  }

  tell_lists(which, at, text) {
    for (const word of this.lists[which]) {
      const bytes = coder.encode(`${word}\0`);

      this.view.setUint32(at, text, true);
      this.chunk(text, bytes.length).set(bytes);
      at += 4;
      text += bytes.length;
    }
    return OK;
  }

  tell_sizes(which, count, size) {
    const all = this.lists[which].map((word) => coder.encode(word).length + 1);

    this.view.setUint32(count, all.length, true);
    this.view.setUint32(size, all.reduce((a, b) => a + b, 0), true);
    return OK;
  }

  tell_stat(node, at) {
    const view = this.view;

    this.chunk(at, 64).fill(0);
    view.setBigUint64(at + 8, BigInt(node.number), true);
    view.setUint8(at + 16, node.kind);
    view.setBigUint64(at + 24, BigInt(node.links), true);
    view.setBigUint64(at + 32, BigInt(node.size ?? 0), true);
    return OK;
  }

  read(fd, list, count, from, told) {
    const { node } = this.open[fd];
    let at = from;

    if (node.kind === FOLDER) return ISDIR;
    for (const chunk of this.chunks(list, count)) {
      const some = node.bytes.subarray(at, Math.min(at + chunk.length, node.size));

      chunk.set(some);
      at += some.length;
    }
    this.view.setUint32(told, at - from, true);
    return at;
  }

  unlink(where, name) {
    where.names.get(name).links -= 1;
    where.names.delete(name);
  }

  imports() {
    return Object.fromEntries(CALLS.map(([name, call]) =>
      [name, (...given) => call(this, ...given)]));
  }

  // Others may have their turn: a promise, until which the run is held.
  rest() {
    const waits = this.turn?.();
    return waits === undefined ? OK : waits.then(() => OK);
  }

  ended(code) { return { code, out: said(this.out), err: said(this.err) }; }
}

// Those of a descriptor are told no where it is not open.
const CALLS = [
  ["args_get", (s, at, text) => s.tell_lists("args", at, text)],
  ["args_sizes_get", (s, count, size) => s.tell_sizes("args", count, size)],
  ["environ_get", (s, at, text) => s.tell_lists("environ", at, text)],
  ["environ_sizes_get", (s, count, size) => s.tell_sizes("environ", count, size)],
  ["clock_time_get", (s, clock, precision, at) => {
    const ms = clock === 0 ? Date.now() : performance.now();

    s.view.setBigUint64(at, BigInt(Math.round(ms * 1e6)), true);
    return OK;
  }],
  ["sched_yield", (s) => s.rest()],
  ["random_get", (s, at, length) => {
    for (let i = 0; i < length; i += 65536)
      crypto.getRandomValues(s.chunk(at + i, Math.min(65536, length - i)));
    return OK;
  }],
  ["proc_exit", (s, code) => { throw new Exit(code); }],
  // each is ready at once, and there is no one to wait for
  ["poll_oneoff", (s, list, events, count, told) => {
    s.chunk(events, 32 * count).fill(0);
    for (let i = 0; i < count; i++) {
      s.chunk(events + 32 * i, 8).set(s.chunk(list + 48 * i, 8));
      s.view.setUint8(events + 32 * i + 10, s.view.getUint8(list + 48 * i + 8));
    }
    s.view.setUint32(told, count, true);
    return OK;
  }],

  ["fd_prestat_get", (s, fd, at) => {
    if (fd !== ROOT) return BADF;
    s.view.setUint32(at, 0, true);
    s.view.setUint32(at + 4, 1, true);
    return OK;
  }],
  ["fd_prestat_dir_name", (s, fd, at) => {
    if (fd !== ROOT) return BADF;
    s.chunk(at, 1)[0] = 0x2f; // "/"
    return OK;
  }],
  ["fd_close", of_open((s, fd) => {
    delete s.open[fd];
    s.closed?.();
    return OK;
  })],
  ["fd_sync", of_open(() => OK)],
  ["fd_fdstat_get", of_open((s, fd, at) => {
    const { node, flags } = s.open[fd];

    s.chunk(at, 24).fill(0);
    s.view.setUint8(at, node.kind);
    s.view.setUint16(at + 2, flags, true);
    s.view.setBigUint64(at + 8, node.kind === WINDOW ? EVERY_RIGHT & ~PLACES : EVERY_RIGHT, true);
    s.view.setBigUint64(at + 16, EVERY_RIGHT, true);
    return OK;
  })],
  ["fd_fdstat_set_flags", of_open((s, fd, flags) => (s.open[fd].flags = flags, OK))],
  ["fd_filestat_get", of_open((s, fd, at) => s.tell_stat(s.open[fd].node, at))],
  ["fd_seek", of_open((s, fd, by, whence, told) => {
    const entry = s.open[fd];
    const at = Number(by) + [0, entry.at, entry.node.size][whence];

    if (entry.node.kind !== FILE) return SPIPE;
    if (!(at >= 0)) return INVAL;
    entry.at = at;
    s.view.setBigUint64(told, BigInt(at), true);
    return OK;
  })],
  ["fd_read", of_open((s, fd, list, count, told) => {
    const at = s.read(fd, list, count, s.open[fd].at, told);

    if (s.open[fd].node.kind === FOLDER) return at;
    s.open[fd].at = at;
    return OK;
  })],
  ["fd_pread", of_open((s, fd, list, count, from, told) => {
    const at = s.read(fd, list, count, Number(from), told);

    return s.open[fd].node.kind === FOLDER ? at : OK;
  })],
  ["fd_write", of_open((s, fd, list, count, told) => {
    const entry = s.open[fd];
    let sum = 0;

    if (entry.node.kind === FOLDER) return ISDIR;
    if (entry.flags & APPEND) entry.at = entry.node.size;
    for (const chunk of s.chunks(list, count)) {
      write(entry.node, entry.at, chunk);
      entry.at += chunk.length;
      sum += chunk.length;
    }
    s.view.setUint32(told, sum, true);
    if (entry.heard === undefined) return OK;
    entry.heard(entry.node.bytes.subarray(Math.max(0, entry.node.size - LAST), entry.node.size));
    return s.rest();
  })],
  // the names as they stood when the reading began
  ["fd_readdir", of_open((s, fd, at, room, cookie, told) => {
    const entry = s.open[fd];
    let used = 0;

    if (entry.node.kind !== FOLDER) return NOTDIR;
    if (cookie === 0n) entry.seen = [...entry.node.names];
    for (let i = Number(cookie); i < entry.seen.length && used < room; i++) {
      const one = listing(i, ...entry.seen[i]).subarray(0, room - used);

      s.chunk(at + used, one.length).set(one);
      used += one.length;
    }
    s.view.setUint32(told, used, true);
    return OK;
  })],

  ["path_open", (s, fd, follow, at, length, how, base, more, flags, told) => {
    const w = s.walk(fd, at, length);
    let { node } = w;

    if (w.code !== OK) return w.code;
    if (node === undefined) {
      if (!(how & CREATE)) return NOENT;
      node = file(new Uint8Array(0));
      w.at.names.set(w.name, node);
    } else if (how & EXCLUSIVE) {
      return EXIST;
    }
    if (how & AS_FOLDER && node.kind !== FOLDER) return NOTDIR;
    if (how & EMPTIED) node.size = 0;
    node.opened = true;
    const free = s.open.findIndex((entry) => entry === undefined);
    const next = free >= 0 ? free : s.open.length;
    s.open[next] = { node, at: 0, flags };
    s.view.setUint32(told, next, true);
    return OK;
  }],
  ["path_filestat_get", (s, fd, follow, at, length, told) => {
    const { code, node } = s.walk(fd, at, length);

    if (code !== OK) return code;
    return node === undefined ? NOENT : s.tell_stat(node, told);
  }],
  ["path_create_directory", (s, fd, at, length) => {
    const w = s.walk(fd, at, length);

    if (w.code !== OK) return w.code;
    if (w.node !== undefined) return EXIST;
    w.at.names.set(w.name, folder());
    return OK;
  }],
  ["path_remove_directory", (s, fd, at, length) => {
    const { code, at: where, name, node } = s.walk(fd, at, length);

    if (code !== OK) return code;
    if (node === undefined) return NOENT;
    if (node.kind !== FOLDER) return NOTDIR;
    if (node.names.size > 0 || name === "") return NOTEMPTY;
    s.unlink(where, name);
    return OK;
  }],
  ["path_unlink_file", (s, fd, at, length) => {
    const { code, at: where, name, node } = s.walk(fd, at, length);

    if (code !== OK) return code;
    if (node === undefined) return NOENT;
    if (node.kind === FOLDER) return ISDIR;
    s.unlink(where, name);
    return OK;
  }],
  ["path_readlink", () => INVAL], // there are none
  ["path_link", (s, fd, follow, at, length, to, to_at, to_length) => {
    const from = s.walk(fd, at, length), goes = s.walk(to, to_at, to_length);

    if (from.code !== OK || goes.code !== OK) return from.code || goes.code;
    if (from.node === undefined) return NOENT;
    if (goes.node !== undefined) return EXIST;
    goes.at.names.set(goes.name, from.node);
    from.node.links += 1;
    return OK;
  }],
  ["path_rename", (s, fd, at, length, to, to_at, to_length) => {
    const from = s.walk(fd, at, length), goes = s.walk(to, to_at, to_length);

    if (from.code !== OK || goes.code !== OK) return from.code || goes.code;
    if (from.node === undefined) return NOENT;
    if (goes.node?.kind === FOLDER) return ISDIR;
    if (goes.node === from.node) return OK;
    if (goes.node !== undefined) s.unlink(goes.at, goes.name);
    from.at.names.delete(from.name);
    goes.at.names.set(goes.name, from.node);
    return OK;
  }],
];

function of_open(call) {
  return (s, fd, ...given) => s.open[fd] === undefined ? BADF : call(s, fd, ...given);
}

// An entry of a folder as it is read, the i-th.
function listing(i, name, node) {
  const text = coder.encode(name);
  const bytes = new Uint8Array(24 + text.length);
  const view = new DataView(bytes.buffer);

  view.setBigUint64(0, BigInt(i + 1), true);
  view.setBigUint64(8, BigInt(node.number), true);
  view.setUint32(16, text.length, true);
  view.setUint8(20, node.kind);
  bytes.set(text, 24);
  return bytes;
}

const said = ({ node }) => node.bytes.slice(0, node.size);

// As many pages as the modules are linked for (WASM_LINK).
const PAGES = 128;

const used = new WeakSet(); // memories that a run had: a new one is nothing as it comes

export const memoryOf = () => new WebAssembly.Memory({ initial: PAGES });

// A memory of so many bytes that is the system's already: a page of it that is
// touched for the first time costs as much as what is done with it.
export function readied(bytes) {
  const memory = memoryOf(), more = bytes - memory.buffer.byteLength;

  if (more > 0) memory.grow(more / 2 ** 16);
  new Uint8Array(memory.buffer).fill(0);
  return memory;
}

// A system and an instance that is new to it.
function begun(module, { files, words, variables, heard, memory, turn, closed }) {
  const system = new System(files, ["dewledger", ...words], variables, heard);
  const calls = system.imports();

  if (used.has(memory)) new Uint8Array(memory.buffer).fill(0);
  used.add(memory);
  system.memory = memory;
  system.turn = turn;
  system.closed = closed;
  if (turn !== undefined)
    for (const name of ["fd_write", "sched_yield"]) calls[name] = new WebAssembly.Suspending(calls[name]);
  return { system, start: new WebAssembly.Instance(module, {
    wasi_snapshot_preview1: calls, env: { memory } }).exports._start };
}

function exit_of(thrown) {
  if (!(thrown instanceof Exit)) throw thrown;
  return thrown.code;
}

// words: those after the program's name; variables: such as ["COLUMNS=80"];
// heard, where it is given: told the last of the messages as they come, how far
// a run is too; memory: of a run before, which is wiped: no more is taken from
// the system than one run needs.  Returns the exit code, and what was printed as
// bytes.
export function run(module, files, words, variables = [], heard = undefined, memory = memoryOf()) {
  const { system, start } = begun(module, { files, words, variables, heard, memory });

  try {
    start();
    return system.ended(0);
  } catch (thrown) {
    return system.ended(exit_of(thrown));
  }
}

// The same where the browser can hold a run: turn, often asked, may give a promise,
// until which the run is held; what it is refused with ends the run.  closed: told
// when a file was.
export async function run_held(module, files, words, more) {
  const { system, start } = begun(module, { files, words, ...more });

  try {
    await WebAssembly.promising(start)();
    return system.ended(0);
  } catch (thrown) {
    return system.ended(exit_of(thrown));
  }
}
