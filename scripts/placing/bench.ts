/** A stretch of a run as an instrument would have kept it: another start, clock, rate, instrument and noise each time. */
import { Random } from '../../src/loads/random.ts';
import { unitOfChannel } from '../../src/measured/measured-unit.ts';
import type { MeasuredColumn, Measurement } from '../../src/measured/measurement.ts';
import { readSensor } from '../../src/measured/sensor/read-sensor.ts';
import type { Sensor } from '../../src/measured/sensor/sensor.ts';
import type { Rows } from '../identification/every-step.ts';
import { readingOf } from '../identification/instrument.ts';
import type { Stand } from './stands.ts';

export interface Bench {
  readonly measurement: Measurement;
  readonly at_s: number;
  readonly rate_ratio: number;
  readonly interval_s: number;
}

/** Instants, means over an interval, or a pole at 0.4 of the rate: each is a third of the benches. */
function drawnSensor(random: Random, interval_s: number, channel: string): Sensor | undefined {
  const kind = Math.floor(3 * random.uniform());
  if (kind === 0) return undefined;
  const words = kind === 1 ? `averaging ${1e3 * interval_s} ms` : `corner ${0.4 / interval_s} Hz`;
  const read = readSensor(`shunt, ${words}`, unitOfChannel(channel));
  if ('found' in read) throw new RangeError(read.found);
  return read;
}

/** `late`: share of the run that is over before the file begins. */
export function benchOf(rows: Rows, { intervals_s }: Stand, seed: number, late: number): Bench {
  const random = new Random(seed);
  const { from_s, to_s } = rows.window;
  const span_s = to_s - from_s;
  const interval_s = intervals_s[Math.floor(intervals_s.length * random.uniform())]!;
  const clock = random.uniform();
  const rate_ratio =
    clock < 0.3 ? 0 : clock < 0.7 ? 160e-6 * (random.uniform() - 0.5) : 2e-3 * (random.uniform() - 0.5);
  const at_s = from_s + 0.005 + (late + 0.02 * random.uniform()) * span_s;
  const length_s = (0.8 + 0.17 * random.uniform()) * ((1 - late) * span_s - 0.03);
  const relative = 10 ** (-3 + 1.7 * random.uniform());
  const time_s = Float64Array.from({ length: Math.floor(length_s / interval_s) }, (_, k) => k * interval_s);
  const columns = rows.channels.map((channel): MeasuredColumn => {
    const sensor = drawnSensor(random, interval_s, channel);
    const reading = readingOf(rows, channel, sensor);
    const clean = time_s.map((t) => reading(at_s + (1 + rate_ratio) * t));
    const noise = relative * (Math.max(...clean) - Math.min(...clean));
    const values = clean.map((value) => value + noise * random.gaussian());
    return { column: channel, channel, time_s, values, ...(sensor === undefined ? {} : { sensor }) };
  });
  return {
    measurement: { file: 'bench.csv', sha256: '', columns, remarks: [], warnings: [] },
    at_s,
    rate_ratio,
    interval_s,
  };
}
