// SPDX-License-Identifier: GPL-3.0-or-later
// A scenario's text with its places: one value is read or changed and all else,
// comments too, stays as it was written.  Blocks, flows, plain and quoted words;
// anything else throws, and the page then offers the text alone.  What is right
// is for the engine to say.
//
//     get(text, ["house", "floor_area"]);            // "1900 ft2"
//     set(text, ["options", 1, "layout"], "mix");    // the new text

class Unread extends Error {}

const KEY = /^(?:"((?:[^"\\]|\\.)*)"|'((?:[^']|'')*)'|([^\s#"'{}[\],&*!|>%@`-][^#{}[\],]*?|-[^\s#{}[\],][^#{}[\],]*?))[ \t]*:(?=[ \t\r\n]|$)/;

class Reader {
  constructor(text) {
    this.text = text;
    this.at = 0;
  }

  // To the next thing that is neither space, comment nor end of line.
  skip() {
    for (;;) {
      const space = /[ \t\r\n]*/y;
      space.lastIndex = this.at;
      this.at += space.exec(this.text)[0].length;
      if (this.text[this.at] !== "#") return;
      this.line();
    }
  }

  line() {
    const end = this.text.indexOf("\n", this.at);
    this.at = end < 0 ? this.text.length : end + 1;
  }

  get column() { return this.at - (this.text.lastIndexOf("\n", this.at - 1) + 1); }
  get over() { return this.at >= this.text.length; }
  get rest() { return this.text.slice(this.at, this.at + 400).split("\n", 1)[0]; }

  key() {
    const found = KEY.exec(this.rest);

    if (found === null) throw new Unread(`no key at "${this.rest.slice(0, 20)}"`);
    this.at += found[0].length;
    return found[1] ?? found[2] ?? found[3];
  }

  document() {
    this.skip();
    if (this.text.startsWith("---", this.at)) {
      this.at += 3;
      this.skip();
    }
    if (this.over) return { kind: "map", pairs: [], indent: 0, start: this.at, end: this.at };
    const root = this.map(this.column);
    this.skip();
    if (!this.over) throw new Unread("more than one block");
    return root;
  }

  map(indent) {
    const node = { kind: "map", pairs: [], indent, start: this.at };

    do {
      const pair = { at: this.at, name: this.key() };
      pair.colon = this.at;
      pair.value = this.after(indent, true);
      node.pairs.push(pair);
      node.end = pair.value.end;
      this.skip();
    } while (!this.over && this.column === indent);
    if (!this.over && this.column > indent) throw new Unread("a line further in");
    return node;
  }

  list(indent) {
    const node = { kind: "list", items: [], indent, start: this.at };

    while (!this.over && this.column === indent && /^-(?=[ \t\r\n]|$)/.test(this.rest)) {
      const at = this.at;
      this.at += 1;
      const value = this.item(indent);
      node.items.push({ ...value, dash: at });
      node.end = value.end;
      this.skip();
    }
    return node;
  }

  item(indent) {
    while (/[ \t]/.test(this.text[this.at] ?? "")) this.at += 1;
    return KEY.test(this.rest) ? this.map(this.column) : this.after(indent, false);
  }

  // What a key or a dash is followed by.
  after(indent, ofKey) {
    const end = this.at;

    while (/[ \t]/.test(this.text[this.at] ?? "")) this.at += 1;
    if (!/^(?:#|\r?$)/.test(this.rest)) return this.inline();
    this.skip();
    if (!this.over && this.column > indent)
      return /^-(?=\s|$)/.test(this.rest) ? this.list(this.column) : this.map(this.column);
    if (!this.over && ofKey && this.column === indent && /^-(?=\s|$)/.test(this.rest))
      return this.list(indent);
    return { kind: "none", start: end, end };
  }

  inline() {
    const first = this.text[this.at];

    if (first === "{" || first === "[") return this.flow();
    if (/[&*!|>%@`]/.test(first)) throw new Unread(`"${first}"`);
    if (first === '"' || first === "'") return this.quoted();
    const words = /^(?:[^#\r\n]|(?<=\S)#)*/.exec(this.rest)[0].trimEnd();
    return this.plain(words);
  }

  plain(words) {
    const node = { kind: "value", start: this.at, end: this.at + words.length, text: words };
    this.at = node.end;
    return node;
  }

  quoted() {
    const found = /^(?:"((?:[^"\\]|\\.)*)"|'((?:[^']|'')*)')/.exec(this.rest);

    if (found === null) throw new Unread("a quote that does not end on its line");
    const node = { kind: "value", start: this.at, end: this.at + found[0].length };
    try {
      node.text = found[1] === undefined ? found[2].replaceAll("''", "'") : JSON.parse(found[0]);
    } catch {
      throw new Unread(found[0]);
    }
    this.at = node.end;
    return node;
  }

  flow() {
    const start = this.at, ofMap = this.text[this.at] === "{";
    const node = ofMap ? { kind: "map", flow: true, pairs: [], start }
      : { kind: "list", flow: true, items: [], start };

    this.at += 1;
    for (this.skip(); this.text[this.at] !== (ofMap ? "}" : "]"); this.skip()) {
      if (this.over) throw new Unread("a bracket that is not closed");
      if (ofMap) node.pairs.push(this.flowPair());
      else node.items.push(this.flowValue());
      this.skip();
      if (this.text[this.at] === ",") this.at += 1;
    }
    this.at += 1;
    node.end = this.at;
    return node;
  }

  flowPair() {
    const pair = { at: this.at, name: this.key() };

    pair.colon = this.at;
    this.skip();
    pair.value = /[,}]/.test(this.text[this.at]) ? { kind: "none", start: pair.colon, end: pair.colon }
      : this.flowValue();
    return pair;
  }

  flowValue() {
    const first = this.text[this.at];

    if (first === "{" || first === "[") return this.flow();
    if (first === '"' || first === "'") return this.quoted();
    const words = /^(?:[^,{}[\]#\r\n]|(?<=\S)#)*/.exec(this.rest)[0].trimEnd();
    if (words === "" || /[&*!|>%@`]/.test(first)) throw new Unread(`"${first}"`);
    return this.plain(words);
  }
}

export function read(text) {
  if (/\t/.test(text.replace(/#.*|"[^"\n]*"/g, ""))) throw new Unread("a tab");
  return new Reader(text).document();
}

function step(node, name) {
  if (node === undefined) return undefined;
  return node.kind === "list" ? node.items[name]
    : node.pairs?.findLast((pair) => pair.name === name)?.value;
}

const find = (root, path) => path.reduce(step, root);

// Text of a value; undefined where there is none; a list or group as written.
export function get(text, path) {
  const node = find(read(text), path);

  if (node === undefined || node.kind === "none") return undefined;
  return node.text ?? text.slice(node.start, node.end);
}

export const has = (text, path) => find(read(text), path) !== undefined;

export function names(text, path) {
  return (find(read(text), path)?.pairs ?? []).map((pair) => pair.name);
}

export function count(text, path) {
  return find(read(text), path)?.items?.length ?? 0;
}

// As it is written into a file: plain where that is safe; { raw }: as it is.
export function written(words, inFlow = true) {
  if (words.raw !== undefined) return words.raw;
  const first = /^[\p{L}\p{N}.+-]/u.test(words) && !/^[-+.]?$|^-\s|\s$/.test(words);
  const rest = inFlow ? /^(?:[^:#\p{C},{}[\]"'\\]|:(?=\S)|(?<=\S)#)*$/u : /^(?:[^:#\p{C}]|:(?=\S)|(?<=\S)#)*$/u;

  return first && rest.test(words) ? words : JSON.stringify(words);
}

const put = (text, from, to, words) => text.slice(0, from) + words + text.slice(to);
const lineStart = (text, at) => text.lastIndexOf("\n", at - 1) + 1;

function lineEnd(text, at) {
  const end = text.indexOf("\n", at);
  return end < 0 ? text.length : end + 1;
}

// A group in lines of its own, as far in as told.
function asLines(path, words, indent) {
  return path.map((name, i) => " ".repeat(indent + 2 * i) + name + ":").join("\n") +
    ` ${written(words, false)}\n`;
}

// Into a map that has it not; path: the names from there.
function insert(text, map, path, words) {
  if (map.flow) {
    const inner = path.slice(1).reduceRight((sum, name) => `{${name}: ${sum}}`, written(words));
    const last = map.pairs.at(-1);
    return last === undefined ? put(text, map.start, map.end, `{${path[0]}: ${inner}}`)
      : put(text, last.value.end, last.value.end, `, ${path[0]}: ${inner}`);
  }
  const options = map.pairs.find((pair) => pair.name === "options");
  if (map.indent === 0 && options !== undefined) {
    const at = lineStart(text, options.at);
    return put(text, at, at, asLines(path, words, 0));
  }
  const at = map.pairs.length > 0 ? lineEnd(text, map.end) : text.length;
  const ends = at === 0 || text[at - 1] === "\n" ? "" : "\n";
  return put(text, at, at, ends + asLines(path, words, map.indent));
}

export function set(text, path, words) {
  let node = read(text), inFlow = false;

  if (get(text, path) === words) return text;
  for (const [i, name] of path.entries()) {
    const next = step(node, name);
    if (next === undefined) return insert(text, node, path.slice(i), words);
    if (next.kind === "none" || next.kind === "value" && i + 1 < path.length) {
      const flows = node.flow || next.kind === "value";
      const rest = path.slice(i + 1);
      const value = flows || rest.length === 0
        ? " " + rest.reduceRight((sum, key) => `{${key}: ${sum}}`, written(words))
        : "\n" + asLines(rest, words, node.indent + 2).trimEnd();
      const from = next.kind === "none" ? next.start : next.start - 1;
      return put(text, from, next.end, value);
    }
    inFlow = node.flow === true;
    node = next;
  }
  return put(text, node.start, node.end, written(words, inFlow));
}

// Without that key, and without the group that it was alone in.
export function unset(text, path) {
  const root = read(text);
  const map = find(root, path.slice(0, -1));
  const index = map?.pairs?.findLastIndex((pair) => pair.name === path.at(-1)) ?? -1;

  if (index < 0) return text;
  if (map.pairs.length === 1 && path.length > 1 && typeof path.at(-2) === "string")
    return unset(text, path.slice(0, -1));
  const pair = map.pairs[index];
  if (map.flow) {
    const next = map.pairs[index + 1], before = map.pairs[index - 1];
    return next !== undefined ? put(text, pair.at, next.at, "")
      : before !== undefined ? put(text, before.value.end, pair.value.end, "")
        : put(text, map.start, map.end, "{}");
  }
  const dash = text.slice(lineStart(text, pair.at), pair.at).includes("-");
  if (dash && map.pairs.length > 1)
    return put(text, pair.at, map.pairs[1].at, "");
  return put(text, lineStart(text, pair.at), lineEnd(text, pair.value.end), "");
}

// ---- rows of a list ------------------------------------------------------------

// A row after the others of a list, made where there is none; words: "{a: b}".
export function addRow(text, path, words) {
  const list = find(read(text), path);

  if (list?.kind !== "list" || list.items.length === 0) return set(text, path, { raw: `[${words}]` });
  const { end } = list.items.at(-1);
  if (list.flow) return put(text, end, end, `, ${words}`);
  const at = lineEnd(text, list.end);
  return put(text, at, at, `${text[at - 1] === "\n" ? "" : "\n"}${" ".repeat(list.indent)}- ${words}\n`);
}

export function dropRow(text, path, index) {
  const { items, flow } = find(read(text), path);

  if (items.length === 1) return unset(text, path);
  if (!flow) {
    const next = items[index + 1];
    return put(text, lineStart(text, items[index].dash),
      next === undefined ? lineEnd(text, items[index].end) : lineStart(text, next.dash), "");
  }
  return index > 0 ? put(text, items[index - 1].end, items[index].end, "")
    : put(text, items[0].start, items[1].start, "");
}

// The row of a list that a line and column lie in, from 1; -1: none.
export function rowAt(text, path, line, column) {
  const at = text.split("\n").slice(0, line - 1).reduce((sum, one) => sum + one.length + 1, 0) + column - 1;
  return find(read(text), path)?.items?.findIndex(({ start, end }) => start <= at && at <= end) ?? -1;
}

// ---- options -------------------------------------------------------------------

// An option after the others; lines: its text from "name:" on, not indented.
export function add(text, lines) {
  const list = find(read(text), ["options"]);
  const block = (indent) => lines.trimEnd().split("\n").map((line, i) =>
    " ".repeat(indent) + (i === 0 ? "- " : "  ") + line).join("\n") + "\n";

  if (list?.kind === "list" && !list.flow) {
    const at = lineEnd(text, list.end);
    return put(text, at, at, (text[at - 1] === "\n" ? "" : "\n") + block(list.indent));
  }
  if (list?.kind === "list" && list.items.length > 0) throw new Unread("options in brackets");
  const bare = list === undefined ? text : unset(text, ["options"]);
  return `${bare}${bare === "" || bare.endsWith("\n") ? "" : "\n"}options:\n${block(2)}`;
}

export function drop(text, index) {
  const list = find(read(text), ["options"]);

  if (list.items.length === 1) return unset(text, ["options"]);
  if (list.flow) throw new Unread("options in brackets");
  const next = list.items[index + 1];
  const end = next === undefined ? lineEnd(text, list.items[index].end)
    : lineStart(text, next.dash);
  return put(text, lineStart(text, list.items[index].dash), end, "");
}

// The lines of one, for add().
export function lines(text, index) {
  const { items } = find(read(text), ["options"]);
  const { start, end, indent } = items[index];

  if (items[index].flow || indent === undefined) throw new Unread("an option in brackets");
  return text.slice(start, end).split("\n")
    .map((line, i) => i === 0 ? line : line.slice(Math.min(indent, line.search(/\S|$/)))).join("\n");
}
