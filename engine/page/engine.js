// SPDX-License-Identifier: GPL-3.0-or-later
// Two workers with the engine, one for what is asked at once and one for houses
// like this one.  Ending a worker stops it; the compiled module is kept, so that
// the next stands at once.

class Lane {
  constructor(engine) {
    this.engine = engine;
    this.waiting = new Map();
    this.next = 0;
  }

  start() {
    this.worker = new Worker(this.engine.url);
    this.worker.onmessage = ({ data }) => this.heard(data);
    this.worker.onerror = (event) => this.fail(event.message ?? "the worker does not start");
    this.worker.postMessage(this.engine.module === undefined ? { packed: this.engine.packed }
      : { module: this.engine.module });
  }

  heard(data) {
    if (data.ready !== undefined) this.engine.is(data.ready, data.which);
    else if (data.done !== undefined) this.progress?.(data.done, data.what);
    else if (data.failed !== undefined) this.fail(data.failed);
    else this.settle(data.id, (one) => one.yes(data));
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

  // Ends what runs; those who wait are told why.
  stop(why = "stopped") {
    this.worker?.terminate();
    this.worker = undefined;
    for (const id of [...this.waiting.keys()]) this.settle(id, (one) => one.no(new Error(why)));
  }

  // Something that takes its time, and that may be ended for what is asked next?
  get busy() { return [...this.waiting.values()].some(({ long }) => long); }

  // The command with these words; folder: whose files are to come back.
  call(words, files, { folder, progress } = {}) {
    if (this.worker === undefined) this.start();
    this.progress = progress;
    const id = ++this.next;
    return new Promise((yes, no) => {
      this.waiting.set(id, { yes, no, long: folder !== undefined });
      this.worker.postMessage({ id, call: words, files, folder });
    });
  }
}

export class Engine {
  constructor(code, packed) {
    this.url = URL.createObjectURL(new Blob([code], { type: "text/javascript" }));
    this.packed = packed;
    this.now = new Lane(this);
    this.later = new Lane(this);
    this.ready = new Promise((yes) => { this.yes = yes; });
    this.now.start();
  }

  is(module, which) {
    this.module = module;
    this.which = which;
    this.packed = undefined;
    this.yes();
  }
}
