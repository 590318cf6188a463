/** One mutated recording read, and what is wrong with the way it was read, if anything. */

import { BadInput } from '../../src/base/problem.ts';
import { plainReading, readRecorded } from '../../src/loads/recorded/read-recorded.ts';
import type { RecordedReading } from '../../src/scenario/scenario.ts';
import { type Timed, type Tried, timed } from '../series/tried.ts';

/** Ways in which files are asked to be read, taken in turn. */
const readings: readonly Partial<RecordedReading>[] = [
  {},
  { time: '1:s', power: ['2'], unit: 'W' },
  { align: true, sort: true },
  { decimal: 'comma', dates: 'day-first', fresh: true },
  { channel: 'none', sort: true, averaging_s: 1 },
];

export function tried(text: string, number: number): Timed<'read' | 'refused'> {
  return timed(() => readOnce(text, readings[Math.floor(number / 10) % readings.length]!));
}

function readOnce(text: string, reading: Partial<RecordedReading>): Tried<'read' | 'refused'> {
  try {
    const source = { file: 'fuzz', sha256: 'sum' };
    const { statement, total, channels } = readRecorded(text, source, { ...plainReading, ...reading });
    const series = [total, ...channels.map((channel) => channel.series)];
    const wrong =
      wrongNumber(statement, 'statement') ??
      series.map(({ time_s, power_W }) => wrongSeries(time_s, power_W)).find((one) => one !== null) ??
      null;
    return wrong === null ? { ending: 'read', why: '' } : { ending: 'wrong', why: wrong };
  } catch (error) {
    if (!(error instanceof BadInput)) return { ending: 'wrong', why: String(error) };
    const problem = error.problems[0];
    return problem === undefined || problem.mend === ''
      ? { ending: 'wrong', why: 'refused without a way out' }
      : { ending: 'refused', why: problem.found };
  }
}

/** The path of a number that is not finite, or null. */
function wrongNumber(value: unknown, path: string): string | null {
  if (typeof value === 'number') return Number.isFinite(value) ? null : `${path} is ${value}`;
  if (typeof value !== 'object' || value === null) return null;
  for (const [key, one] of Object.entries(value)) {
    const wrong = wrongNumber(one, `${path}.${key}`);
    if (wrong !== null) return wrong;
  }
  return null;
}

function wrongSeries(time_s: Float64Array, power_W: Float64Array): string | null {
  for (let i = 0; i < time_s.length; i++) {
    if (!(power_W[i]! >= 0 && power_W[i]! <= 1e15)) return `power ${power_W[i]} at sample ${i}`;
    if (!Number.isFinite(time_s[i]!)) return `stamp ${time_s[i]} at sample ${i}`;
    if (i > 0 && !(time_s[i]! > time_s[i - 1]!)) return `stamps that do not rise at sample ${i}`;
  }
  return null;
}
