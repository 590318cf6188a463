/**
 * Synthetic benches with known start, clock and noise, placed by the tool: `--count N` right models and as
 * many wrong ones, over all scenarios together, seeds from `--seed` on. The right model must lie inside its 95 % interval in at least 91.5 %; a wrong model must never be off by
 * more than a sample without a warning.
 *
 *   node --import tsx scripts/benches.ts --count 200
 */
import { parseArgs } from 'node:util';
import type { MeasuredReport } from '../src/analysis/judge/report.ts';
import type { Result, Stream } from '../src/engine/result.ts';
import { Random } from '../src/loads/random.ts';
import { layOver } from '../src/measured/lay-over.ts';
import type { MeasuredColumn, Measurement } from '../src/measured/measurement.ts';
import { simulatedAt } from '../src/measured/simulated-at.ts';
import { run } from '../src/run.ts';
import type { Change } from '../src/scenario/scenario.ts';
import { readShipped } from '../tests/scenario/shipped.ts';

const { values: asked } = parseArgs({
  options: { count: { type: 'string', default: '200' }, seed: { type: 'string', default: '1' } },
});
const count = Number(asked.count);

interface Stand {
  readonly name: string;
  readonly changes: readonly Change[];
  readonly channels: readonly string[];
}

const stands: readonly Stand[] = [
  {
    name: 'single-step',
    changes: [],
    channels: ['A.S1.voltage_V', 'S1.current_A', 'total.ac_power_W'],
  },
  {
    name: 'training-iterations',
    changes: [
      { path: 'duration', value: '8 s' },
      { path: 'warm_up', value: '1 s' },
    ],
    channels: ['A.S1.voltage_V', 'total.ac_power_W'],
  },
  {
    name: 'step-ladder',
    changes: [{ path: 'duration', value: '6 s' }],
    channels: ['A.S1.voltage_V', 'S1.current_A'],
  },
  {
    name: 'pulse-train',
    changes: [{ path: 'duration', value: '12 s' }],
    channels: ['A.S1.voltage_V', 'S1.current_A'],
  },
];

/** Other cabinets than the one that is laid beside. */
const others: readonly (readonly Change[])[] = [
  [{ path: 'shelves.droop', value: '0.9 mΩ' }],
  [{ path: 'firmware.smoothing.time_constant', value: '1.5 s' }],
  [{ path: 'trays.capacitance', value: '80 F' }],
  [{ path: 'firmware.smoothing.time_constant', value: '5 s' }],
  [
    { path: 'shelves.droop', value: '0.5 mΩ' },
    { path: 'banks.esr', value: '3 mΩ' },
  ],
];

function measurementOf(columns: readonly MeasuredColumn[]): Measurement {
  return { file: 'bench.csv', sha256: '', columns, remarks: [] };
}

function simulated({ name, changes, channels }: Stand, more: readonly Change[]): Result {
  const { scenario } = readShipped(`scenarios/${name}.yaml`, [], { changes: [...changes, ...more] });
  const columns = channels.map((channel) => ({
    column: channel,
    channel,
    time_s: new Float64Array(0),
    values: new Float64Array(0),
  }));
  return run(scenario, null, { measured: { measurement: measurementOf(columns), at_s: 0 } }).result;
}

interface Bench {
  readonly measurement: Measurement;
  readonly at_s: number;
  readonly rate_ratio: number;
  readonly interval_s: number;
}

/** A stretch of the run as an instrument would have kept it: another start, clock, rate and noise each time. */
function benchOf(result: Result, channels: readonly string[], seed: number): Bench {
  const random = new Random(seed);
  const streams = channels.map((id) => result.streams.find((s) => s.channel === id) as Stream);
  const { from_s, samples, rate_Hz } = streams[0] as Stream;
  const span_s = samples.length / rate_Hz;
  const interval_s = [0.001, 0.002, 0.005][Math.floor(3 * random.uniform())] as number;
  const clock = random.uniform();
  const rate_ratio =
    clock < 0.3 ? 0 : clock < 0.7 ? 160e-6 * (random.uniform() - 0.5) : 2e-3 * (random.uniform() - 0.5);
  const at_s = from_s + 0.005 + 0.02 * span_s * random.uniform();
  const length_s = (0.8 + 0.17 * random.uniform()) * (span_s - 0.03);
  const relative = 10 ** (-3 + 1.7 * random.uniform());
  const time_s = Float64Array.from({ length: Math.floor(length_s / interval_s) }, (_, k) => k * interval_s);
  const columns = streams.map((stream): MeasuredColumn => {
    const swing = Math.max(...stream.samples) - Math.min(...stream.samples);
    const values = time_s.map(
      (t) => simulatedAt(stream, at_s + (1 + rate_ratio) * t) + relative * swing * random.gaussian(),
    );
    return { column: stream.channel, channel: stream.channel, time_s, values };
  });
  return { measurement: measurementOf(columns), at_s, rate_ratio, interval_s };
}

interface Tally {
  benches: number;
  inside: number;
  refused: number;
  warned: number;
  offWithoutWarning: number;
  clocks: number;
  clocksInside: number;
  worst: string;
}

const empty = (): Tally => ({
  benches: 0,
  inside: 0,
  refused: 0,
  warned: 0,
  offWithoutWarning: 0,
  clocks: 0,
  clocksInside: 0,
  worst: '',
});

function tell(tallies: readonly Tally[], bench: Bench, model: Result, seed: number): void {
  const placed = layOver(bench.measurement, model, { at_s: null });
  for (const tally of tallies) enter(tally, bench, placed, seed);
}

function enter(tally: Tally, bench: Bench, placed: MeasuredReport, seed: number): void {
  const off_s = placed.at_s - bench.at_s;
  tally.benches++;
  if (placed.warnings.length > 0) tally.warned++;
  if (placed.aligned !== 'found') tally.refused++;
  const [low, high] = placed.at_interval_s ?? [Number.NaN, Number.NaN];
  if (low <= bench.at_s && bench.at_s <= high) tally.inside++;
  if (Math.abs(off_s) > bench.interval_s && placed.warnings.length === 0) {
    tally.offWithoutWarning++;
    tally.worst += ` seed ${seed}: ${off_s} s`;
  }
  if (placed.clock_rate_ratio !== null) {
    tally.clocks++;
    const z = (placed.clock_rate_ratio - bench.rate_ratio) / (placed.clock_rate_error_ratio ?? 0);
    if (Math.abs(z) <= 1.96) tally.clocksInside++;
  }
}

const first = Number(asked.seed);
const [allRight, allWrong] = [empty(), empty()];
stands.forEach((stand, s) => {
  const model = simulated(stand, []);
  const made = others.map((changes) => simulated(stand, changes));
  const [right, wrong] = [empty(), empty()];
  for (let k = s; k < count; k += stands.length) {
    const seed = first + k;
    tell([right, allRight], benchOf(model, stand.channels, seed), model, seed);
    const other = made[Math.floor(k / stands.length) % made.length] as Result;
    tell([wrong, allWrong], benchOf(other, stand.channels, seed), model, seed);
  }
  console.log(stand.name, 'right model', JSON.stringify(right));
  console.log(stand.name, 'wrong model', JSON.stringify(wrong));
});
console.log('all, right model', JSON.stringify(allRight));
console.log('all, wrong model', JSON.stringify(allWrong));
