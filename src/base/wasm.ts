/** WebAssembly as far as it is used here; declared because the pure stages see no platform types. */
export interface WasmMemory {
  readonly buffer: ArrayBuffer;
  grow(pages: number): number;
}

export interface WasmApi {
  Memory: new (descriptor: { initial: number; maximum?: number }) => WasmMemory;
  Module: new (bytes: Uint8Array) => object;
  Instance: new (module: object, imports: object) => { readonly exports: unknown };
}

/** WebAssembly where the platform has it. */
export const wasm: WasmApi | undefined = (globalThis as { WebAssembly?: WasmApi }).WebAssembly;

/** Memory comes in pages of so many bytes. */
export const wasmPage_bytes = 65_536;

/** What the build wrote as text is a module again; null where WebAssembly is missing or not allowed. */
export function wasmModule(base64: string): object | null {
  if (wasm === undefined) return null;
  try {
    return new wasm.Module(bytesOf(base64));
  } catch {
    return null;
  }
}

/** The bytes that a text in Base64 (RFC 4648) stands for. */
export function bytesOf(base64: string): Uint8Array {
  const alphabet = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';
  const sixBits = new Uint8Array(128);
  for (let k = 0; k < alphabet.length; k++) sixBits[alphabet.charCodeAt(k)] = k;
  const text = base64.replace(/=+$/, '');
  const bytes = new Uint8Array(Math.floor((text.length * 3) / 4));
  const value = (k: number): number => (k < text.length ? sixBits[text.charCodeAt(k)]! : 0);
  // Four letters are three bytes; the last of them may be missing, and bytes beyond the end are not kept.
  for (let k = 0, at = 0; k < text.length; k += 4, at += 3) {
    const word = (value(k) << 18) | (value(k + 1) << 12) | (value(k + 2) << 6) | value(k + 3);
    bytes[at] = word >> 16;
    bytes[at + 1] = (word >> 8) & 255;
    bytes[at + 2] = word & 255;
  }
  return bytes;
}
