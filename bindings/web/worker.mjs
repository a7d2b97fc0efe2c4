// One question, one answer, beside the page.
import { openCore } from "./core.mjs";

// What is asked before the core is open must not be lost: whoever listens stands there at once.
export function serve(scope, bytes, post) {
  const opening = Promise.resolve(bytes).then(openCore);
  scope.onmessage = async ({ data }) => {
    try {
      const core = await opening;
      post({ text: core(data.name, ...data.given) });
    } catch (error) {
      post({ failed: error.message });
    }
  };
}
