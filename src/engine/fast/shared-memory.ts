/** One memory that both languages see: the fast kernel by address, everything else by typed arrays over it. */

type Column = Float64Array | Int32Array | Uint8Array;

/** The part of the WebAssembly interface used here; declared because the pure stages see no platform types. */
export interface WasmApi {
  Memory: new (descriptor: { initial: number }) => { readonly buffer: ArrayBuffer };
  Module: new (bytes: Uint8Array) => object;
  Instance: new (module: object, imports: object) => { readonly exports: unknown };
}

/** WebAssembly where the platform has it. */
export const wasm: WasmApi | undefined = (globalThis as { WebAssembly?: WasmApi }).WebAssembly;

const pageBytes = 65_536;

/** Addresses below this hold the directory. */
const firstFree = 1024;

export class SharedMemory {
  readonly memory: { readonly buffer: ArrayBuffer };
  private next = firstFree;

  /** Fixed size: growing would detach every array. */
  constructor(api: WasmApi, bytes: number) {
    this.memory = new api.Memory({ initial: Math.ceil((bytes + firstFree) / pageBytes) });
  }

  private take(bytes: number): number {
    const at = this.next;
    this.next += (bytes + 7) & ~7;
    if (this.next > this.memory.buffer.byteLength) {
      throw new RangeError(
        `the kernel's memory of ${this.memory.buffer.byteLength} bytes is full at ${this.next}`,
      );
    }
    return at;
  }

  f64(count: number): Float64Array {
    return new Float64Array(this.memory.buffer, this.take(8 * count), count);
  }

  i32(count: number): Int32Array {
    return new Int32Array(this.memory.buffer, this.take(4 * count), count);
  }

  u8(count: number): Uint8Array {
    return new Uint8Array(this.memory.buffer, this.take(count), count);
  }

  private moved(column: Column): Column {
    if (column.buffer === this.memory.buffer) return column;
    const made =
      column instanceof Float64Array
        ? this.f64(column.length)
        : column instanceof Int32Array
          ? this.i32(column.length)
          : this.u8(column.length);
    made.set(column);
    return made;
  }

  /** Moves the named typed arrays of `holder` into this memory. */
  adoptFields<T extends object>(holder: T, names: readonly (keyof T & string)[]): void {
    const fields = holder as Record<string, unknown>;
    for (const name of names) fields[name] = this.moved(fields[name] as Column);
  }

  /** Moves every typed array that `holder` holds, in arrays and plain objects too, into this memory. */
  adopt(holder: object): void {
    const fields = holder as Record<string, unknown>;
    for (const key of Object.keys(fields)) {
      const value = fields[key];
      if (value instanceof Float64Array || value instanceof Int32Array || value instanceof Uint8Array) {
        fields[key] = this.moved(value);
      } else if (
        Array.isArray(value) ||
        (value !== null && Object.getPrototypeOf(value ?? 0) === Object.prototype)
      ) {
        this.adopt(value as object);
      }
    }
  }
}

/** Bytes of all typed arrays that `holder` holds. */
export function bytesHeld(holder: object): number {
  let bytes = 0;
  for (const value of Object.values(holder)) {
    if (value instanceof Float64Array || value instanceof Int32Array || value instanceof Uint8Array) {
      bytes += value.byteLength + 8;
    } else if (
      Array.isArray(value) ||
      (value !== null && Object.getPrototypeOf(value ?? 0) === Object.prototype)
    ) {
      bytes += bytesHeld(value as object);
    }
  }
  return bytes;
}
