// SPDX-License-Identifier: GPL-3.0-or-later
// What a browser can, for the page and for its workers.

// Can it hold a run while others have their turn?
export const HOLDS = WebAssembly.Suspending !== undefined && WebAssembly.promising !== undefined;

// A browser looks for what is lost when much is asked of it, not when a worker
// waits: asked for and let go untouched, this much makes it look, and some 50 MB of
// code and instances that ran come back.  One that has not so much says no.
const PRESSES = 4, PRESS = 2 ** 26;

export function press() {
  try {
    for (let i = 0; i < PRESSES; i++) new ArrayBuffer(PRESS);
  } catch {
    // then it has just looked
  }
}
