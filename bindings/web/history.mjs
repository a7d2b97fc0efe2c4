// SPDX-License-Identifier: MIT
// The file as it was before each change, and where the browser keeps it.

const KEPT = 100;

export class History {
  constructor(text) {
    this.texts = [text];
  }

  get now() {
    return this.texts[this.texts.length - 1];
  }

  add(text) {
    if (text === this.now) return false;
    this.texts.push(text);
    if (this.texts.length > KEPT) this.texts.shift();
    return true;
  }

  undo() {
    if (this.texts.length > 1) this.texts.pop();
    return this.now;
  }

  get canUndo() {
    return this.texts.length > 1;
  }
}

// Keeps a few texts by name; false where the browser keeps nothing. To ask for its storage, which
// `storage` does, may be refused too.
export class Store {
  constructor(storage) {
    this.storage = storage;
  }

  keep(name, text) {
    try {
      this.storage().setItem(`stopmargin.${name}`, text);
      return true;
    } catch {
      return false;
    }
  }

  kept(name) {
    try {
      return this.storage().getItem(`stopmargin.${name}`) ?? "";
    } catch {
      return "";
    }
  }
}
