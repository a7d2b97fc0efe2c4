// SPDX-License-Identifier: MIT
// The rows of heat and the papers are worked out beside the page, in a worker that can be stopped.

export class Heat {
  // `module`: the core, compiled; `make` makes a worker; `told` is given the text of each answer
  // and what was asked.
  constructor(module, make, told) {
    this.module = module;
    this.make = make;
    this.told = told;
  }

  get busy() {
    return this.worker !== undefined;
  }

  ask(name, ...given) {
    this.stop();
    this.worker = this.make();
    this.worker.onmessage = ({ data }) => this.end(name, data);
    this.worker.onerror = () => this.end(name, { failed: "the browser ended it" });
    this.worker.postMessage({ module: this.module, name, given });
  }

  end(name, data) {
    this.stop();
    this.told(name, data);
  }

  // What it was at is thrown away.
  stop() {
    this.worker?.terminate();
    this.worker = undefined;
  }
}
