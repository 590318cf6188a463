/**
 * A JavaScript interpreter inside WebAssembly, one for each module of a user's own: what runs in it reaches its own memory and
 * nothing else of this process. The build has made the interpreter count its own turns (`scripts/interpreter/`), so that
 * whatever does not return ends, after the same number of turns on any machine.
 */
import { QuickJSFFI } from '@jitl/quickjs-wasmfile-release-sync/ffi';
import { type QuickJSContext, type QuickJSHandle, QuickJSWASMModule } from 'quickjs-emscripten-core';
import { type WasmMemory, wasm, wasmModule } from '../../base/wasm.ts';
import { interpreterBase64, loaded } from './made/interpreter.js';

/** All the memory that it ever has: columns that lie in it stay where they are [pages of 64 KiB]. */
const memory_pages = 512;

/**
 * Deepest stack of the module's own calls [bytes], some 230 of a plain function; beyond it the module is told. So shallow that
 * the stack of the process is not met first, where how deep it reaches hangs on how the interpreter has been compiled by then.
 */
const stack_bytes = 40 * 1024;

/** What the language has and no more: no clock, no promises, nothing that answers later. */
const intrinsics = {
  BaseObjects: true,
  Eval: true,
  StringNormalize: true,
  RegExp: true,
  RegExpCompiler: true,
  JSON: true,
  Proxy: true,
  MapSet: true,
  TypedArrays: true,
  BigInt: true,
};

let compiled: object | null = null;

/** The interpreter has taken all the turns it was allowed. */
export class Endless extends Error {}

/** The stack of the process is full before the interpreter's own is, as by brackets thousands deep in the module's text. */
export class TooDeep extends Error {}

/** The module has left the interpreter so that nothing can be handed over: its memory is full, most likely. */
export class Broken extends Error {}

export type Handle = QuickJSHandle;

export class Interpreter {
  private readonly context: QuickJSContext;
  private readonly memory: WasmMemory;
  /** Where the bytes last handed over stand. */
  private handed = 0;
  /** Turns left. */
  private readonly left: { value: number };

  constructor() {
    compiled ??= wasmModule(interpreterBase64());
    if (wasm === undefined || compiled === null)
      throw new RangeError('no WebAssembly here: a controller of the user’s own cannot run');
    const memory = new wasm.Memory({ initial: memory_pages, maximum: memory_pages });
    let exports: unknown = null;
    const module = loaded({
      wasmMemory: memory,
      instantiateWasm: (imports) => {
        const instance = new wasm!.Instance(compiled!, imports);
        exports = instance.exports;
        return instance;
      },
      print: () => {},
      printErr: () => {},
    });
    this.memory = memory;
    this.left = (exports as unknown as { readonly left: { value: number } }).left;
    const calls = new QuickJSFFI(module);
    // The package hands bytes over and keeps to itself where they stand; there they can be read and written at any time.
    const handOver = calls.QTS_NewArrayBuffer;
    calls.QTS_NewArrayBuffer = (context, pointer, bytes) => {
      this.handed = Number(pointer);
      return handOver(context, pointer, bytes);
    };
    const runtime = new QuickJSWASMModule(module, calls).newRuntime();
    runtime.setMaxStackSize(stack_bytes);
    this.context = runtime.newContext({ intrinsics });
  }

  /** The value of a script of ours, which does not throw. */
  own(text: string): Handle {
    return this.context.unwrapResult(this.context.evalCode(text));
  }

  /** The value of a script of the user's, or what it threw. Throws Endless, TooDeep, Broken. */
  evaluate(
    text: string,
    file: string,
    turns: number,
  ): { readonly value: Handle } | { readonly thrown: Handle } {
    const result = this.within(turns, () => this.context.evalCode(text, file));
    return result.error === undefined ? { value: result.value } : { thrown: result.error };
  }

  /** What a function of ours says of its arguments, in words; null where it says nothing. Throws Endless, TooDeep, Broken. */
  words(of: Handle, turns: number, ...args: readonly Handle[]): string | null {
    const { context } = this;
    const said = this.within(turns, () => context.callFunction(of, context.undefined, ...args));
    if (said.error !== undefined) throw new Broken();
    return said.value.consume((word) => {
      if (context.typeof(word) === 'undefined') return null;
      const text = context.getString(word);
      // Words are never empty: there was no room to hand them over.
      if (text === '') throw new Broken();
      return text;
    });
  }

  member(of: Handle, name: string): Handle {
    return this.context.getProp(of, name);
  }

  number(value: number): Handle {
    return this.context.newNumber(value);
  }

  string(text: string): Handle {
    return this.context.newString(text);
  }

  /** An ArrayBuffer of the interpreter's for so many numbers, and the same numbers out here. It is kept for good. Throws Broken. */
  column(count: number): { readonly inside: Handle; readonly values: Float64Array } {
    const inside = this.context.newArrayBuffer(new ArrayBuffer(8 * Math.max(1, count)));
    if (this.handed === 0) throw new Broken();
    return { inside, values: new Float64Array(this.memory.buffer, this.handed, count) };
  }

  /** Turns that the last call took of those it was allowed. */
  spent(of: number): number {
    return of - this.left.value;
  }

  private within<T>(turns: number, work: () => T): T {
    this.left.value = turns;
    try {
      return work();
    } catch (error) {
      if (this.left.value < 0) throw new Endless();
      if (error instanceof RangeError) throw new TooDeep();
      throw new Broken();
    }
  }
}
