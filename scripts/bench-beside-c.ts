/**
 * A step of the compiled kernel, linked to its cabinet, over the same one by gcc -O2, in the middle of a run:
 *
 *   node --import tsx scripts/bench-beside-c.ts [SCENARIO]
 */
import { performance } from 'node:perf_hooks';
import { scenarioToRun } from '../src/cli/options/scenario-to-run.ts';
import { advance } from '../src/engine/advance.ts';
import { ready } from '../src/engine/cabinet.ts';
import { firmwareAgenda } from '../src/engine/firmware-agenda.ts';
import { makeDemand } from '../src/loads/make-demand.ts';
import { assemble } from '../src/network/network.ts';
import { stepInC } from './in-c/step-in-c.ts';

/** Into the run [s], and the step taken there [s]. */
const from_s = 1.3;
const step_s = 500e-6;
const many = 100_000;

/** The step's time by the kernel and by gcc [ns]; null without a compiler. Both end at the same bits. */
export function besideC(name: string): { readonly kernel_ns: number; readonly c_ns: number } | null {
  const { scenario, recorded } = scenarioToRun(name, []);
  const { network, stepper, ...cabinet } = ready(
    assemble(scenario),
    makeDemand(scenario, recorded ?? undefined),
    1,
    'linked',
  );
  const whole = { network, stepper, ...cabinet };
  const [from, ticks] = [from_s, step_s].map((t) => Math.round(t / scenario.tick_s)) as [number, number];
  advance(whole, firmwareAgenda(whole, 0), 0, from, null);
  const { step, kernel, v1 } = stepper;
  stepper.take(from, ticks);
  const rung = stepper.rungOf(ticks);
  const q_s = (ticks * scenario.tick_s) / 2;
  let kernel_ns = Number.POSITIVE_INFINITY;
  for (let round = 0; round < 5; round++) {
    const start_ms = performance.now();
    for (let k = 0; k < many; k++) kernel.take(step, rung, q_s, q_s, 1, false);
    kernel_ns = Math.min(kernel_ns, ((performance.now() - start_ms) / many) * 1e6);
  }
  const taken = {
    memory: new Uint8Array(v1.buffer.slice(0)),
    step: step.address,
    rung: rung.address,
    q_s,
    along: 1,
    voltages: v1.byteOffset,
    nodes: v1.length,
  };
  const made = stepInC(taken, network, many);
  if (made === null) return null;
  const sum_V = v1.reduce((sum, v) => sum + v, 0);
  if (made.sum_V !== sum_V)
    throw new Error(`by gcc the voltages add up to ${made.sum_V} V, not to ${sum_V} V`);
  return { kernel_ns, c_ns: made.step_ns };
}

if (process.argv[1]?.endsWith('bench-beside-c.ts') === true) {
  const times = besideC(process.argv[2] ?? 'pulse-train');
  console.log(
    times === null
      ? 'no g++ here'
      : `a step of the kernel ${times.kernel_ns.toFixed(0)} ns, by gcc -O2 ${times.c_ns.toFixed(0)} ns: ${(times.kernel_ns / times.c_ns).toFixed(2)} of it`,
  );
}
