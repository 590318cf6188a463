/**
 * The compiled kernel: the functions of `engine/kernel.ts` as WebAssembly, over objects that stand in one memory. Made by
 * the build (`npm run build`); the plain form gives the same bits (tests/engine/fast/fast.test.ts).
 */
import type { Int } from '../../base/int.ts';
import { wasm, wasmModule } from '../../base/wasm.ts';
import type { ChargeKeeper } from '../../firmware/tray/charge-keeper.ts';
import type { TrayGuard } from '../../firmware/tray/tray-guard.ts';
import type { Look } from '../look.ts';
import type { Closing } from '../record/closing.ts';
import { Rung } from '../rung.ts';
import type { Step } from '../step.ts';
import type { Kernel, Structures } from './kernel-form.ts';
import { Linking } from './linking.ts';
import { kernelBase64, kernelLayouts } from './made/kernel.ts';
import { networkSolve } from './network-solve.ts';
import { bytesOf, SharedMemory } from './shared-memory.ts';
import type { Ways } from './way.ts';

/** The functions as WebAssembly has them: objects by address, flags as 0 and 1. */
interface Functions {
  astray(guard: Int, from: Int): Int;
  ask(charge: Int, smoothed_W: number, isAssisting: Int, isLost: Int, isStraight: Int): number;
  take(step: Int, rung: Int, p_s: number, q_s: number, along: number, shortest: Int): Int;
  prepare(step: Int, rung: Int, q_s: number): void;
  accept(step: Int): void;
  look(look: Int, tick0: number, tick1: number, judged: Int, smoothed_W: number): Int;
  close(closing: Int, judged: Int): void;
}

/** Room for what looks on, for each node and state [bytes]: pages that are never written cost nothing. */
const lookingOn = 32_768;

let compiled: object | null = null;

export class CompiledKernel implements Kernel {
  private readonly shared: SharedMemory;
  private readonly linking: Linking<Functions>;
  private readonly ways: Ways<Functions>;
  private readonly patterns: readonly Rung[];

  private constructor(linking: Linking<Functions>, shared: SharedMemory, patterns: readonly Rung[]) {
    this.linking = linking;
    this.ways = linking.ways;
    this.shared = shared;
    this.patterns = patterns;
  }

  /**
   * A kernel with room for the step, as many rungs as `slots` and what looks on; null where WebAssembly is missing or
   * not allowed. `atOnce`: it is linked to its memory before the first step.
   */
  static make(step: Step, slots: number, atOnce: boolean): CompiledKernel | null {
    compiled ??= wasmModule(kernelBase64);
    if (wasm === undefined || compiled === null) return null;
    const seen = new Set<object>();
    // Rungs that are not stepped by: what all share stands with the first, the other two tell what moves with a rung. They are
    // placed before anybody looks at the devices, whose columns then stand where they stay.
    const patterns = Array.from({ length: 3 }, () => new Rung(step.network));
    const shared_bytes = bytesOf(kernelLayouts, step, 'Step', seen);
    const slot_bytes = bytesOf(kernelLayouts, patterns[0]!, 'Rung', seen);
    const { nodeCount, stateCount } = step;
    const bytes =
      2 * shared_bytes + (slots + patterns.length) * slot_bytes + lookingOn * (nodeCount + stateCount);
    const shared = new SharedMemory(wasm, kernelLayouts, bytes);
    const env = { memory: shared.memory };
    const imports = { env, network: networkSolve(wasm, step.network, env) };
    const every = new wasm.Instance(compiled, imports).exports as Functions;
    const over = {
      api: wasm,
      imports,
      words: shared.words,
      patterns: () => patterns.map((rung) => shared.place(rung, 'Rung')).slice(1) as [Int, Int],
    };
    return new CompiledKernel(new Linking<Functions>(every, over, atOnce), shared, patterns);
  }

  /** Whether steps are taken by what is linked to the cabinet. */
  get form(): 'fast' | 'linked' {
    return this.ways.take.isLinked ? 'linked' : 'fast';
  }

  hold<S extends keyof Structures>(structure: S, of: Structures[S]): void {
    of.address = this.shared.place(of, structure);
    if (structure === 'Step') for (const rung of this.patterns) this.shared.place(rung, 'Rung');
    this.linking.hold(structure, of.address);
  }

  column(length: number): Float64Array {
    return this.shared.column(length);
  }

  astray(guard: TrayGuard, from: Int): Int {
    const { address } = guard;
    return this.ways.astray.over(address)(address, from);
  }

  ask(
    charge: ChargeKeeper,
    smoothed_W: number,
    isAssisting: boolean,
    isLost: boolean,
    isStraight: boolean,
  ): number {
    const { address } = charge;
    const own = this.ways.ask.over(address);
    return own(address, smoothed_W, isAssisting ? 1 : 0, isLost ? 1 : 0, isStraight ? 1 : 0);
  }

  take(step: Step, rung: Rung, p_s: number, q_s: number, along: number, shortest: boolean): Int {
    const { address } = step;
    this.linking.step();
    return this.ways.take.over(address)(address, rung.address, p_s, q_s, along, shortest ? 1 : 0);
  }

  prepare(step: Step, rung: Rung, q_s: number): void {
    const { address } = step;
    this.ways.prepare.over(address)(address, rung.address, q_s);
  }

  accept(step: Step): void {
    const { address } = step;
    this.ways.accept.over(address)(address);
  }

  look(look: Look, tick0: number, tick1: number, judged: boolean, smoothed_W: number): Int {
    const { address } = look;
    return this.ways.look.over(address)(address, tick0, tick1, judged ? 1 : 0, smoothed_W);
  }

  close(closing: Closing, judged: boolean): void {
    const { address } = closing;
    this.ways.close.over(address)(address, judged ? 1 : 0);
  }
}
