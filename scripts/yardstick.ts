/**
 * How far a run's node voltages lie from those of the same run by steps of an eighth:
 *
 *   node --import tsx scripts/yardstick.ts [SCENARIO ...]
 *
 * Both begin settled. Once without the quantum of the share's trims, which a last digit may send another way; once with it,
 * the finer run being told the other's trims, so that what a trim stirs up is measured too. They are compared at the ends of
 * the coarser steps, each weighed by the time it took; between its own steps the finer one is straight. Given are the root
 * of the mean square and the largest error of any node, over the largest swing of a node, and the steps of a simulated
 * second: what is saved of these must not be paid there.
 */
import { scenarioToRun } from '../src/cli/options/scenario-to-run.ts';
import { advance } from '../src/engine/advance.ts';
import { ready } from '../src/engine/cabinet.ts';
import { firmwareAgenda } from '../src/engine/firmware-agenda.ts';
import { putEvents } from '../src/engine/happen/put-events.ts';
import { makeDemand } from '../src/loads/make-demand.ts';
import { assemble } from '../src/network/network.ts';

/** Scenarios that are looked at where none is named: pulses, a recording, a jump, a fault. */
export const yardstickScenarios = ['pulse-train', 'recorded-training', 'single-step', 'shelf-trip'] as const;

/** Without the trims' quantum, or with it and the trims of the coarser run. */
export type Trims = 'without quantum' | 'told';

/** Longest run that is compared [s]. */
const longest_s = 4;

/** Steps of the finer run: the fraction of the usual ones. */
const finer = 8;

/** The trims of all shelves after each run of the share [V], by its tick. */
type Told = Map<number, Float64Array>;

interface Walk {
  readonly time_s: readonly number[];
  /** One row of node voltages for each moment. */
  readonly rows: readonly Float64Array[];
  readonly steps_per_s: number;
}

/** The voltages of all nodes at the end of every step; trims are written to `told` where it is empty, else read from it. */
function walk(name: string, refine: number, trims: Trims, told: Told): Walk {
  const changes = [{ path: 'firmware.share.trim_quantum', value: '0 V' }];
  const { scenario: whole, recorded } = scenarioToRun(name, trims === 'told' ? [] : changes);
  const duration_s = Math.min(whole.duration_s, longest_s);
  const events = whole.events.filter(({ at_s }) => at_s < duration_s);
  const scenario = { ...whole, start: 'settled' as const, duration_s, events };
  const cabinet = ready(assemble(scenario), makeDemand(scenario, recorded ?? undefined), refine);
  const { stepper, controls, network } = cabinet;
  if (trims === 'told') {
    const { share, sharing } = controls;
    const run = share.run.bind(share);
    const tells = told.size === 0;
    share.run = (tick) => {
      if (!tells) {
        const kicks = [...told.get(tick)!].map((trim_V, k) => sharing.units.commandTrim(k, trim_V));
        return Math.max(0, ...kicks);
      }
      const kick = run(tick);
      told.set(tick, network.stages.trim_V.slice(0, sharing.units.count));
      return kick;
    };
  }
  const time_s: number[] = [0];
  const rows: Float64Array[] = [stepper.v0.slice()];
  const { tick_s } = scenario;
  const agenda = firmwareAgenda(cabinet, 0);
  putEvents(cabinet, agenda);
  advance(cabinet, agenda, 0, Math.round(duration_s / tick_s), {
    edge: () => {},
    step: (_, tick) => {
      time_s.push(tick * tick_s);
      rows.push(stepper.v1.slice());
      return true;
    },
  });
  return { time_s, rows, steps_per_s: cabinet.steps / duration_s };
}

export interface Distance {
  readonly steps_per_s: number;
  readonly rms_ratio: number;
  readonly most_ratio: number;
}

export function distanceOf(name: string, trims: Trims = 'without quantum'): Distance {
  const told: Told = new Map();
  const coarse = walk(name, 1, trims, told);
  const fine = walk(name, finer, trims, told);
  const n = coarse.rows[0]!.length;
  const square = new Float64Array(n);
  const low = new Float64Array(n).fill(Number.POSITIVE_INFINITY);
  const high = new Float64Array(n).fill(Number.NEGATIVE_INFINITY);
  let most = 0;
  let at = 0;
  for (let k = 1; k < coarse.time_s.length; k++) {
    const t = coarse.time_s[k]!;
    while (at < fine.time_s.length - 2 && fine.time_s[at + 1]! < t) at++;
    const [before, after] = [fine.rows[at]!, fine.rows[at + 1]!];
    const along = (t - fine.time_s[at]!) / (fine.time_s[at + 1]! - fine.time_s[at]!);
    const width = t - coarse.time_s[k - 1]!;
    for (let c = 0; c < n; c++) {
      const v = before[c]! + along * (after[c]! - before[c]!);
      const error = Math.abs(coarse.rows[k]![c]! - v);
      square[c]! += width * error * error;
      most = Math.max(most, error);
      low[c] = Math.min(low[c]!, v);
      high[c] = Math.max(high[c]!, v);
    }
  }
  const swing = Math.max(...high.map((v, c) => v - low[c]!));
  const whole = coarse.time_s.at(-1)! - coarse.time_s[0]!;
  return {
    steps_per_s: coarse.steps_per_s,
    rms_ratio: Math.sqrt(Math.max(...square) / whole) / swing,
    most_ratio: most / swing,
  };
}

if (process.argv[1]?.endsWith('yardstick.ts') === true) {
  const named = process.argv.slice(2);
  console.log('scenario            trims            steps a second   RMS of swing   largest of swing');
  for (const name of named.length > 0 ? named : yardstickScenarios) {
    for (const trims of ['without quantum', 'told'] as const) {
      const { steps_per_s, rms_ratio, most_ratio } = distanceOf(name, trims);
      const percent = (ratio: number): string => `${(100 * ratio).toFixed(3)} %`;
      console.log(
        name.padEnd(19),
        trims.padEnd(16),
        steps_per_s.toFixed(0).padStart(14),
        percent(rms_ratio).padStart(14),
        percent(most_ratio).padStart(18),
      );
    }
  }
}
