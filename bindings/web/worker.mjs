// One question, one answer, beside the page.
import { openCore } from "./core.mjs";

export async function serve(bytes, post) {
  const core = await openCore(bytes);
  onmessage = ({ data }) => {
    try {
      post({ text: core(data.name, ...data.given) });
    } catch (error) {
      post({ failed: error.message });
    }
  };
}
