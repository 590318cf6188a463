/**
 * One memory that both forms of the kernel see: the compiled one by address, everything else by typed arrays over it.
 * Objects stand in it as the build laid them out (`kernelLayouts`): whole numbers and floats as values, columns and other
 * objects as addresses. Numbers are written once, so the kernel reads only numbers that never change; columns move, and
 * the object's own field points at the moved one.
 */

import { type WasmApi, wasmPage_bytes } from '../../base/wasm.ts';

/** Fields of a structure in their order: name, and `i32`, `f64`, a kind of column or another structure. */
export type Layout = readonly (readonly [name: string, type: string])[];

export type Layouts = Readonly<Record<string, Layout>>;

type Column = Float64Array | Int32Array | Uint8Array;

/** Nothing stands at address 0, which says that an object is not in the memory. */
const firstFree = 8;

/** Left free at the end: two lanes read a pair of bytes with the two behind it. */
const behind = 8;

const isColumn = (value: unknown): value is Column =>
  value instanceof Float64Array || value instanceof Int32Array || value instanceof Uint8Array;

/** The kinds of columns by the names that the build gives them. */
const kinds: Readonly<Record<string, unknown>> = {
  F64s: Float64Array,
  I32s: Int32Array,
  U8s: Uint8Array,
};

const rounded = (bytes: number): number => (bytes + 7) & ~7;

const sizeOf = (type: string): number => (type === 'f64' ? 8 : 4);

/** Where the fields of a structure stand, and the bytes of all. */
interface Places {
  readonly offsets: readonly number[];
  readonly bytes: number;
}

/** Of the layouts met so far: every rung of every cabinet has the same. */
const places = new WeakMap<Layout, Places>();

function placesIn(layout: Layout): Places {
  const known = places.get(layout);
  if (known !== undefined) return known;
  const made = offsetsOf(layout);
  places.set(layout, made);
  return made;
}

/** Offset of every field, each on a multiple of its size. */
function offsetsOf(layout: Layout): Places {
  let bytes = 0;
  const offsets = layout.map(([, type]) => {
    const size = sizeOf(type);
    const offset = Math.ceil(bytes / size) * size;
    bytes = offset + size;
    return offset;
  });
  return { offsets, bytes };
}

function fieldOf(of: object, name: string): unknown {
  return (of as Readonly<Record<string, unknown>>)[name];
}

/** Bytes that an object takes with all that it points at. */
export function bytesOf(layouts: Layouts, of: object, structure: string, seen = new Set<object>()): number {
  if (seen.has(of)) return 0;
  seen.add(of);
  const layout = layouts[structure]!;
  let bytes = rounded(placesIn(layout).bytes);
  for (const [name, type] of layout) {
    const value = fieldOf(of, name);
    if (isColumn(value)) bytes += rounded(value.byteLength);
    else if (typeof value === 'object' && value !== null) bytes += bytesOf(layouts, value, type, seen);
  }
  return bytes;
}

export class SharedMemory {
  readonly memory: { readonly buffer: ArrayBuffer };
  /** The memory's own, which it is slow to tell and never changes. */
  private readonly buffer: ArrayBuffer;
  private readonly layouts: Layouts;
  private readonly view: DataView;
  /** Whole numbers and addresses of the structures, four bytes each. */
  readonly words: Int32Array;
  private readonly addresses = new Map<object, number>();
  private readonly moved = new Map<Column, Column>();
  private next = firstFree;

  /** Fixed size: growing would detach every array. */
  constructor(api: WasmApi, layouts: Layouts, bytes: number) {
    this.memory = new api.Memory({ initial: Math.ceil((firstFree + bytes + behind) / wasmPage_bytes) });
    this.buffer = this.memory.buffer;
    this.view = new DataView(this.buffer);
    this.words = new Int32Array(this.buffer);
    this.layouts = layouts;
  }

  /** Puts an object and all that it points at into the memory, each once; its address. */
  place(of: object, structure: string): number {
    const known = this.addresses.get(of);
    if (known !== undefined) return known;
    const layout = this.layouts[structure];
    if (layout === undefined) throw new RangeError(`the kernel knows no structure ${structure}`);
    const { offsets, bytes } = placesIn(layout);
    const address = this.take(bytes);
    this.addresses.set(of, address);
    layout.forEach(([name, type], f) => {
      this.write(address + offsets[f]!, of, name, type);
    });
    return address;
  }

  private write(at: number, of: object, name: string, type: string): void {
    const value = fieldOf(of, name);
    if (type === 'f64' && typeof value === 'number') this.view.setFloat64(at, value, true);
    else if (type === 'i32' && typeof value === 'number') this.view.setInt32(at, value, true);
    else if (isColumn(value) && value.constructor === kinds[type]) {
      const here = this.move(value);
      Reflect.set(of, name, here);
      this.view.setUint32(at, here.byteOffset, true);
    } else if (typeof value === 'object' && value !== null && type in this.layouts)
      this.view.setUint32(at, this.place(value, type), true);
    else throw new RangeError(`${name} is not the ${type} that the kernel expects`);
  }

  private move(column: Column): Column {
    const { buffer } = this;
    if (column.buffer === buffer) return column;
    const known = this.moved.get(column);
    if (known !== undefined) return known;
    const at = this.take(column.byteLength);
    const made =
      column instanceof Float64Array
        ? new Float64Array(buffer, at, column.length)
        : column instanceof Int32Array
          ? new Int32Array(buffer, at, column.length)
          : new Uint8Array(buffer, at, column.length);
    made.set(column);
    this.moved.set(column, made);
    return made;
  }

  /** A column of zeros that stands in the memory from the start: its pages cost nothing until they are written. */
  column(length: number): Float64Array {
    return new Float64Array(this.buffer, this.take(8 * length), length);
  }

  private take(bytes: number): number {
    const at = this.next;
    this.next += rounded(bytes);
    if (this.next + behind > this.buffer.byteLength) {
      throw new RangeError(`the kernel's memory of ${this.buffer.byteLength} bytes is full at ${this.next}`);
    }
    return at;
  }
}
