// SPDX-License-Identifier: MIT
// One question, one answer, beside the page.
import { openCore } from "./core.mjs";

// `post` is given the answer's text, or what failed. The core comes along, compiled.
export function serve(scope, post) {
  scope.onmessage = async ({ data }) => {
    try {
      const core = await openCore(data.module);
      post({ text: core(data.name, ...data.given) });
    } catch (error) {
      post({ failed: error.message });
    }
  };
}
