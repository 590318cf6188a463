/**
 * The compiled form of the loops over dense matrices and samples (`kernel.ts`), over a memory of its own. Columns are put into it for a
 * call and those that were written taken back: that pays where every number is used many times. What is used again from
 * call to call is held there meanwhile. Made by the build (`npm run build`).
 */
import type { Int } from '../base/int.ts';
import { type WasmMemory, wasm, wasmModule, wasmPage_bytes } from '../base/wasm.ts';
import { kernelBase64 } from './made/kernel.ts';

/** The functions as WebAssembly has them: columns by address, flags as 0 and 1. */
interface Calls {
  addProduct(c: Int, a: Int, b: Int, rows: Int, inner: Int, columns: Int): void;
  apply(y: Int, a: Int, x: Int, rows: Int, columns: Int): void;
  eliminate(a: Int, b: Int, n: Int, columns: Int): Int;
  reduce(h: Int, q: Int, keepsQ: Int, n: Int, u: Int, row: Int): void;
  iterate(h: Int, n: Int, re: Int, im: Int): Int;
  solveShifted(
    columns: Int,
    n: Int,
    sr: number,
    si: number,
    re: Int,
    im: Int,
    sides: Int,
    vr: Int,
    vi: Int,
    rr: Int,
    ri: Int,
    turns: Int,
  ): Int;
  filter(x: Int, count: Int, terms: Int, kept: Int, sections: Int): void;
  wave(x: Int, count: Int, from: number, turns: number): void;
  senseEnvelope(
    sensed: Int,
    envelope: Int,
    fine: Int,
    count: Int,
    finer: Int,
    cubics: Int,
    carrier: Int,
    period: Int,
    from: Int,
    terms: Int,
    kept: Int,
    sections: Int,
    smoothing: Int,
    smoothed: Int,
    scale: number,
  ): void;
  takeOut(basis: Int, count: Int, size: Int, w: Int, parts: Int): void;
  takeSteps(
    z: Int,
    push: Int,
    w: Int,
    n: Int,
    steps: Int,
    rows: Int,
    columns: Int,
    ends: Int,
    sources: Int,
    factors: Int,
    twice: Int,
  ): void;
}

/** The compiler keeps nothing below this address. */
const foot = 64;

export class Compiled {
  readonly call: Calls;
  private readonly memory: WasmMemory;
  /** All numbers of the memory; made anew when it grows. */
  private all: Float64Array;
  private free = foot;

  private constructor(call: Calls, memory: WasmMemory) {
    this.call = call;
    this.memory = memory;
    this.all = new Float64Array(memory.buffer);
  }

  /** null where WebAssembly is missing or not allowed. */
  static make(): Compiled | null {
    const module = wasmModule(kernelBase64);
    if (wasm === undefined || module === null) return null;
    const memory = new wasm.Memory({ initial: 1 });
    const { exports } = new wasm.Instance(module, { env: { memory } });
    return new Compiled(exports as Calls, memory);
  }

  /** Calls with columns in the memory, their addresses in order; those in `written` come back from it. */
  through<T>(
    columns: readonly Float64Array[],
    written: readonly Float64Array[],
    call: (...addresses: Int[]) => T,
  ): T {
    const { free } = this;
    try {
      const addresses = columns.map((column) => this.put(column));
      const given = call(...addresses);
      for (const column of written) this.takeBack(column, addresses[columns.indexOf(column)]!);
      return given;
    } finally {
      this.free = free;
    }
  }

  /** While `work` runs, so many numbers are kept in the memory; it is given where they begin. */
  holding<T>(count: number, work: (address: Int) => T): T {
    const { free } = this;
    try {
      return work(this.room(count));
    } finally {
      this.free = free;
    }
  }

  /** Copies a column to an address. */
  write(column: Float64Array, address: Int): void {
    this.all.set(column, address / 8);
  }

  /** Copies whole numbers to an address; two of them take the room of a number. */
  writeWhole(column: Int32Array, address: Int): void {
    new Int32Array(this.memory.buffer, address, column.length).set(column);
  }

  /** Copies a column from an address. */
  takeBack(column: Float64Array, address: Int): void {
    column.set(this.all.subarray(address / 8, address / 8 + column.length));
  }

  private put(column: Float64Array): Int {
    const address = this.room(column.length);
    this.write(column, address);
    return address;
  }

  private room(count: number): Int {
    const address = this.free;
    this.free += 8 * count;
    const { byteLength } = this.memory.buffer;
    if (this.free > byteLength) {
      // In steps of a half: growing makes every view anew.
      const wanted = Math.max(this.free - byteLength, byteLength / 2);
      this.memory.grow(Math.ceil(wanted / wasmPage_bytes));
      this.all = new Float64Array(this.memory.buffer);
    }
    return address;
  }
}

let made: Compiled | null | undefined;

/** The one compiled form of this thread, made when it is first asked for; null where there is none. */
export function compiled(): Compiled | null {
  if (made === undefined) made = Compiled.make();
  return made;
}
