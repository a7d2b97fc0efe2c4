// SPDX-License-Identifier: MIT
// The library as WebAssembly: texts in, a text out.

const encoder = new TextEncoder();
const decoder = new TextDecoder();
// It reads and writes no file; what it could ask of the system is refused.
const REFUSED = () => 8;

function put(core, text) {
  const bytes = encoder.encode(text);
  const at = core.face_room(bytes.length + 1);
  const memory = new Uint8Array(core.memory.buffer, at, bytes.length + 1);
  memory.set(bytes);
  memory[bytes.length] = 0;
  return at;
}

function take(core, at) {
  if (at === 0) throw new Error("memory is short");
  const memory = new Uint8Array(core.memory.buffer);
  const text = decoder.decode(memory.slice(at, memory.indexOf(0, at)));
  core.face_free(at);
  return text;
}

// The core that stands in a page, packed by gzip, as text of base64. Only the page can: in a worker
// of a local file some browsers read no blob.
export async function unpacked(text) {
  const packed = Uint8Array.from(atob(text.trim()), (sign) => sign.charCodeAt(0));
  const stream = new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip"));
  return WebAssembly.compile(await new Response(stream).arrayBuffer());
}

// A function that calls an export with texts and numbers and gives back its text.
export async function openCore(module) {
  const names = WebAssembly.Module.imports(module).map((one) => one.name);
  const refused = Object.fromEntries(names.map((name) => [name, REFUSED]));
  const core = (await WebAssembly.instantiate(module, { wasi_snapshot_preview1: refused })).exports;
  core._initialize();
  return (name, ...given) => {
    const words = given.map((one) => (typeof one === "string" ? put(core, one) : one));
    const text = take(core, core[`face_${name}`](...words));
    words.forEach((at, i) => typeof given[i] === "string" && core.face_free(at));
    return text;
  };
}
