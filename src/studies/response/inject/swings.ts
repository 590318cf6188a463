/** Which sines, or which chirp, are asked for, as they are written on a command line. */
import { BadInput } from '../../../base/problem.ts';
import { type Dimension, exampleOf, formatQuantity, readQuantity } from '../../../base/quantity.ts';
import { valuesOf } from '../../written/values.ts';
import type { InjectAsked } from './asked.ts';
import { type SummingPoint, summingPoints } from './drives.ts';
import { leastCycles, leastSweep_s } from './swing.ts';

export interface SwingsAsked {
  readonly point: SummingPoint;
  /** `500 Hz to 5 kHz in 4`; null: the usual ones. */
  readonly frequencies: string | null;
  /** How long one sweep through them takes, `2 s`; null: a sine at each. */
  readonly chirp: string | null;
  /** Height with its unit; null: a small one. */
  readonly amplitude: string | null;
  /** Whether the amplitude is looked for at which clamps begin. */
  readonly clamps: boolean;
}

const usual_Hz = [20, 60, 250, 900, 2300, 5000];

/** Clamps are looked for up to this many times the amplitude. */
const clampsWithin = 4096;

/** Less than this part of a usual height drowns in the last digits of a run. */
const leastAmplitude_ratio = 1e-5;

/** The longest sweep: a hundred million steps are no bench [s]. */
const longestSweep_s = 60;

type Swings = Pick<InjectAsked, 'point' | 'amplitude' | 'clamps_within' | 'frequencies_Hz' | 'sweep_s'>;

/** A trial's question for each sine, or one for the chirp. Throws BadInput. */
export function swingsOf(
  { point, frequencies, chirp, amplitude, clamps }: SwingsAsked,
  range_Hz: readonly [number, number],
  load_W: number,
): readonly Swings[] {
  const { unit, usual } = summingPoints[point];
  const frequencies_Hz =
    frequencies === null
      ? usual_Hz
      : valuesOf('--frequencies', frequencies, 'frequency').map((word) =>
          within(word, 'frequency', '--frequencies', range_Hz),
        );
  const least = leastAmplitude_ratio * usual;
  const most = point === 'load' ? load_W : Number.MAX_VALUE;
  const base = {
    point,
    amplitude: amplitude === null ? usual : within(amplitude, unit, '--amplitude', [least, most]),
    clamps_within: clamps ? clampsWithin : 0,
  };
  if (chirp !== null) return [{ ...base, frequencies_Hz, sweep_s: sweepOf(chirp, frequencies_Hz) }];
  return frequencies_Hz.map((frequency_Hz) => ({ ...base, frequencies_Hz: [frequency_Hz], sweep_s: null }));
}

function sweepOf(word: string, frequencies_Hz: readonly number[]): number {
  const least_s = leastSweep_s(frequencies_Hz[0]!, frequencies_Hz.at(-1)!);
  const sweep = readQuantity(word, 'time');
  if (sweep.ok && sweep.value >= least_s && sweep.value <= longestSweep_s) return sweep.value;
  const least = formatQuantity(
    Number(least_s.toPrecision(3)) + 10 ** (Math.floor(Math.log10(least_s)) - 2),
    'time',
    3,
  );
  const isLong = sweep.ok && sweep.value > longestSweep_s;
  throw new BadInput([
    {
      severity: 'error',
      path: '--chirp',
      found: word,
      expected: `a time from ${least} to ${longestSweep_s} s: ${leastCycles} cycles in the octave of the lowest frequency`,
      mend: isLong
        ? `write it like --chirp "${longestSweep_s} s"`
        : `write it like --chirp "${least}", or begin higher with --frequencies`,
    },
  ]);
}

function within(word: string, of: Dimension, path: string, [low, high]: readonly [number, number]): number {
  const reading = readQuantity(word, of);
  if (reading.ok && reading.value >= low && reading.value <= high) return reading.value;
  throw new BadInput([
    {
      severity: 'error',
      path,
      found: word,
      expected: `${of === 'frequency' ? 'frequencies' : `a ${of}`} from ${formatQuantity(low, of)}${high < Number.MAX_VALUE ? ` to ${formatQuantity(high, of)}` : ''}${path === '--amplitude' && high < Number.MAX_VALUE ? ', for a load gives no power' : ''}`,
      mend: `write it like ${exampleOf(of)}`,
    },
  ]);
}
