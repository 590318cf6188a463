/** Which sines are asked for, as they are written on a command line. */
import { BadInput } from '../../../base/problem.ts';
import { type Dimension, exampleOf, readQuantity } from '../../../base/quantity.ts';
import { valuesOf } from '../../written/values.ts';
import { type SummingPoint, summingPoints } from './drives.ts';
import type { InjectAsked } from './inject.ts';

export interface SinesAsked {
  readonly point: SummingPoint;
  /** `500 Hz to 5 kHz in 4`; null: the usual ones. */
  readonly frequencies: string | null;
  /** Height with its unit; null: a small one. */
  readonly amplitude: string | null;
  /** Whether the amplitude is looked for at which clamps begin. */
  readonly clamps: boolean;
}

const usual_Hz = [20, 60, 250, 900, 2300, 5000];

/** Clamps are looked for up to this many times the amplitude. */
const clampsWithin = 4096;

/** Throws BadInput. */
export function sinesOf(
  { point, frequencies, amplitude, clamps }: SinesAsked,
  [low_Hz, high_Hz]: readonly [number, number],
): {
  readonly asked: Pick<InjectAsked, 'point' | 'amplitude' | 'clamps_within'>;
  readonly frequencies_Hz: readonly number[];
} {
  const { unit, usual } = summingPoints[point];
  const frequencies_Hz =
    frequencies === null
      ? usual_Hz
      : valuesOf('--frequencies', frequencies, 'frequency').map((word) =>
          within(word, 'frequency', '--frequencies', [low_Hz, high_Hz]),
        );
  const height =
    amplitude === null ? usual : within(amplitude, unit, '--amplitude', [Number.MIN_VALUE, Number.MAX_VALUE]);
  return { asked: { point, amplitude: height, clamps_within: clamps ? clampsWithin : 0 }, frequencies_Hz };
}

function within(word: string, of: Dimension, path: string, [low, high]: readonly [number, number]): number {
  const reading = readQuantity(word, of);
  if (reading.ok && reading.value >= low && reading.value <= high) return reading.value;
  throw new BadInput([
    {
      severity: 'error',
      path,
      found: word,
      expected: of === 'frequency' ? `frequencies from ${low} Hz to ${high} Hz` : `a ${of} above 0`,
      mend: `write it like ${exampleOf(of)}`,
    },
  ]);
}
