/** One step of the compiled kernel beside the same text as C: `node --import tsx scripts/bench-kernel.ts`. */
import { performance } from 'node:perf_hooks';
import { readTextFile } from '../src/cli/files.ts';
import { advance, firmwareAgenda } from '../src/engine/advance.ts';
import { ready } from '../src/engine/cabinet.ts';
import { makeDemand } from '../src/loads/make-demand.ts';
import { assemble } from '../src/network/network.ts';
import { readScenario } from '../src/scenario/read.ts';
import { stepInC } from './kernel-in-c.ts';

const rounds = 4;
const steps = 200_000;
/** A length that no rung of the ladder has, so that its rung is prepared here [ticks]. */
const ticks = 201;

export interface BesideC {
  readonly step_ns: number;
  readonly c_ns: number;
}

/** Best times of one step of 50 µs in the middle of the pulse train; null without a C compiler or WebAssembly. */
export function kernelBesideC(): BesideC | null {
  const { scenario } = readScenario('scenarios/pulse-train.yaml', { files: readTextFile });
  const cabinet = ready(assemble(scenario), makeDemand(scenario), 1);
  const { stepper } = cabinet;
  const { fast } = stepper;
  if (fast === null) return null;
  const from = Math.round(0.1 / scenario.tick_s);
  advance(cabinet, firmwareAgenda(cabinet, 0), 0, from, null);
  let address = 0;
  const renew = fast.renew.bind(fast);
  fast.renew = (at, rung) => {
    address = at;
    renew(at, rung);
  };
  stepper.take(from, ticks);
  const h = ticks * scenario.tick_s;
  const inC = stepInC(new Uint8Array(stepper.x0.buffer), address, h, steps);
  if (inC === null) return null;
  let step_ns = Number.POSITIVE_INFINITY;
  for (let round = 0; round < rounds; round++) {
    const start_ms = performance.now();
    for (let k = 0; k < steps; k++) fast.call.step(address, h, 1, 0);
    step_ns = Math.min(step_ns, ((performance.now() - start_ms) * 1e6) / steps);
  }
  const sum_V = stepper.v1.reduce((a, b) => a + b, 0);
  if (sum_V !== inC.sum_V) throw new Error(`C ends at ${inC.sum_V} V, the kernel at ${sum_V} V`);
  return { step_ns, c_ns: inC.step_ns };
}

if (import.meta.url === `file://${process.argv[1]}`) {
  const both = kernelBesideC();
  if (both === null) console.log('no C compiler here');
  else
    console.log(
      `step ${both.step_ns.toFixed(0)} ns, in C ${both.c_ns.toFixed(0)} ns: ${(both.step_ns / both.c_ns).toFixed(2)}`,
    );
}
