/**
 * How far a run's node voltages lie from those of the same run by steps of an eighth:
 *
 *   node --import tsx scripts/yardstick.ts [SCENARIO ...]
 *
 * Both begin settled and without the quantum of the share's trims, which a last digit may send another way. They are
 * compared at the ends of the coarser steps, each weighed by the time it took; between its own steps the finer one is
 * straight. Given are the root of the mean square and the largest error of any node, over the largest swing of a node, and
 * the steps of a simulated second: what is saved of these must not be paid there.
 */
import { scenarioToRun } from '../src/cli/options/scenario-to-run.ts';
import { channelsOf } from '../src/engine/gauge.ts';
import { simulate } from '../src/engine/simulate.ts';
import { makeDemand } from '../src/loads/make-demand.ts';
import { assemble } from '../src/network/network.ts';

/** Scenarios that are looked at where none is named: pulses, a recording, a jump, a fault. */
export const yardstickScenarios = ['pulse-train', 'recorded-training', 'single-step', 'shelf-trip'] as const;

/** Longest run that is compared [s]. */
const longest_s = 4;

/** Steps of the finer run: the fraction of the usual ones. */
const finer = 8;

interface Walk {
  readonly time_s: readonly number[];
  /** One row of node voltages for each moment. */
  readonly rows: readonly Float64Array[];
  readonly steps_per_s: number;
}

export interface Distance {
  readonly steps_per_s: number;
  readonly rms_ratio: number;
  readonly most_ratio: number;
}

/** The voltages of all nodes at the end of every step. */
function walk(name: string, refine: number): Walk {
  const { scenario: whole, recorded } = scenarioToRun(name, [
    { path: 'firmware.share.trim_quantum', value: '0 V' },
  ]);
  const duration_s = Math.min(whole.duration_s, longest_s);
  const events = whole.events.filter(({ at_s }) => at_s < duration_s);
  const scenario = { ...whole, start: 'settled' as const, duration_s, events };
  const network = assemble(scenario);
  const nodes = channelsOf(network).filter(({ kind }) => kind === 'node-voltage');
  const time_s: number[] = [];
  const rows: Float64Array[] = [];
  const { counters } = simulate(network, makeDemand(scenario, recorded ?? undefined), {
    levels_V: new Float64Array(),
    refine,
    waveforms: [
      {
        series: nodes.map(({ id }) => ({ id, of: [id], usual: true })),
        pace: { kind: 'every-step' },
        take: (t, row) => {
          time_s.push(t);
          rows.push(row.slice());
        },
      },
    ],
  });
  return { time_s, rows, steps_per_s: counters.steps / duration_s };
}

export function distanceOf(name: string): Distance {
  const coarse = walk(name, 1);
  const fine = walk(name, finer);
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
  console.log('scenario                 steps a second   RMS of swing   largest of swing');
  for (const name of named.length > 0 ? named : yardstickScenarios) {
    const { steps_per_s, rms_ratio, most_ratio } = distanceOf(name);
    const percent = (ratio: number): string => `${(100 * ratio).toFixed(3)} %`;
    console.log(
      name.padEnd(24),
      steps_per_s.toFixed(0).padStart(14),
      percent(rms_ratio).padStart(14),
      percent(most_ratio).padStart(18),
    );
  }
}
