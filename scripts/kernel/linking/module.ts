/** A WebAssembly module read: the bodies of its functions as trees of instructions. */
import { section } from '../../../src/base/wasm-bytes.ts';
import { accessOf, type Instruction, lanes, memory, op, prefix, type Type } from './instructions.ts';

export interface Signature {
  readonly parameters: readonly Type[];
  readonly results: readonly Type[];
}

/** A function; one that is imported has no body. */
export interface Function {
  readonly signature: Signature;
  readonly locals: readonly Type[];
  readonly body: readonly Instruction[] | null;
}

/** A function of another module, by the module's name and its own. */
export interface Imported {
  readonly names: readonly [module: string, name: string];
  readonly signature: Signature;
}

export interface Module {
  /** The first of the functions, which are imported. */
  readonly imported: readonly Imported[];
  readonly functions: readonly Function[];
  /** Place of a function by the name that it is exported as. */
  readonly exported: ReadonlyMap<string, number>;
}

const kind = { function: 0, memory: 2 } as const;

class Reader {
  private readonly bytes: Uint8Array;
  at: number;

  constructor(bytes: Uint8Array, at: number) {
    this.bytes = bytes;
    this.at = at;
  }

  get ends(): boolean {
    return this.at >= this.bytes.length;
  }

  byte(): number {
    return this.bytes[this.at++]!;
  }

  take(count: number): number[] {
    this.at += count;
    return [...this.bytes.subarray(this.at - count, this.at)];
  }

  unsigned(): number {
    let value = 0;
    for (let scale = 1; ; scale *= 128) {
      const byte = this.byte();
      value += (byte & 127) * scale;
      if (byte < 128) return value;
    }
  }

  signed(): number {
    let value = 0;
    for (let shift = 0; ; shift += 7) {
      const byte = this.byte();
      value |= (byte & 127) << shift;
      if (byte >= 128) continue;
      return shift + 7 < 32 && (byte & 64) !== 0 ? value | (-1 << (shift + 7)) : value;
    }
  }

  text(): string {
    return String.fromCharCode(...this.take(this.unsigned()));
  }

  list<T>(read: () => T): T[] {
    return Array.from({ length: this.unsigned() }, read);
  }

  /** Instructions up to the end of a body or its `else`; which of both. */
  instructions(): { readonly body: Instruction[]; readonly ended: number } {
    const body: Instruction[] = [];
    for (;;) {
      const code = this.code();
      if (code === op.end || code === op.else) return { body, ended: code };
      body.push(this.behind(code));
    }
  }

  private code(): number {
    const first = this.byte();
    if (first === prefix.lanes) return lanes(this.unsigned());
    if (first === prefix.memory) return memory(this.unsigned());
    return first;
  }

  private behind(code: number): Instruction {
    const none = { op: code, numbers: [], bytes: [], body: [], otherwise: [] };
    if (code === op.block || code === op.loop) {
      const numbers = [this.byte()];
      return { ...none, numbers, body: this.instructions().body };
    }
    if (code === op.if) {
      const numbers = [this.byte()];
      const { body, ended } = this.instructions();
      return { ...none, numbers, body, otherwise: ended === op.else ? this.instructions().body : [] };
    }
    if (code === op.branchTable)
      return { ...none, numbers: [...this.list(() => this.unsigned()), this.unsigned()] };
    if (code === op.i32Const) return { ...none, numbers: [this.signed()] };
    if (code === op.f64Const) return { ...none, bytes: this.take(8) };
    if (code === op.v128Const || code === lanes(13)) return { ...none, bytes: this.take(16) };
    if (code === op.copy) return { ...none, bytes: this.take(2) };
    if (code >= lanes(21) && code <= lanes(34)) return { ...none, bytes: this.take(1) };
    const indexed = [op.branch, op.branchIf, op.call, op.get, op.set, op.tee] as readonly number[];
    if (indexed.includes(code)) return { ...none, numbers: [this.unsigned()] };
    if (accessOf(code) === null) return none;
    const numbers = [this.unsigned(), this.unsigned()];
    const isOfOneLane = code >= lanes(84) && code <= lanes(91);
    return { ...none, numbers, bytes: isOfOneLane ? this.take(1) : [] };
  }

  function(signature: Signature): Function {
    this.unsigned();
    const locals = this.list(() => new Array<Type>(this.unsigned()).fill(this.byte())).flat();
    return { signature, locals, body: this.instructions().body };
  }
}

/** Reads what the compiler has written; sections that do not matter here are passed over. */
export function readModule(bytes: Uint8Array): Module {
  const reader = new Reader(bytes, 8);
  let signatures: Signature[] = [];
  let own: number[] = [];
  const imported: Imported[] = [];
  const functions: Function[] = [];
  const exported = new Map<string, number>();
  while (!reader.ends) {
    const id = reader.byte();
    const end = reader.unsigned() + reader.at;
    if (id === section.type) {
      signatures = reader.list(() => {
        reader.byte();
        return { parameters: reader.list(() => reader.byte()), results: reader.list(() => reader.byte()) };
      });
    } else if (id === section.import) {
      reader.list(() => {
        const names = [reader.text(), reader.text()] as const;
        if (reader.byte() === kind.memory) {
          for (let limits = reader.byte() === 0 ? 1 : 2; limits > 0; limits--) reader.unsigned();
          return;
        }
        const signature = signatures[reader.unsigned()]!;
        imported.push({ names, signature });
        functions.push({ signature, locals: [], body: null });
      });
    } else if (id === section.function) own = reader.list(() => reader.unsigned());
    else if (id === section.export) {
      reader.list(() => {
        const name = reader.text();
        const isFunction = reader.byte() === kind.function;
        const index = reader.unsigned();
        if (isFunction) exported.set(name, index);
      });
    } else if (id === section.code) {
      let k = 0;
      functions.push(...reader.list(() => reader.function(signatures[own[k++]!]!)));
    }
    reader.at = end;
  }
  return { imported, functions, exported };
}
