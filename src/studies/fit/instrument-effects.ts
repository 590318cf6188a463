import type { Curves } from '../../measured/curve/curve.ts';
import type { Measurement } from '../../measured/measurement.ts';
import type { Residuals } from './residuals.ts';
import type { Effect } from './suspects.ts';

/** What gain, bias and a delay of each channel would do to what is left: of one channel alone there is no delay, but a place. */
export function instrumentEffects(
  residuals: Residuals,
  { columns }: Pick<Measurement, 'columns'>,
  curves: Curves,
  later_s: number,
): Effect[] {
  return columns.flatMap(({ channel: path }, c): Effect[] => {
    const { gain, bias, delay } = residuals.ofInstrument(curves, later_s, c);
    const scale: Effect[] = [
      { kind: 'gain', path, effect: gain },
      { kind: 'bias', path, effect: bias },
    ];
    return columns.length === 1 ? scale : [...scale, { kind: 'delay', path, effect: delay }];
  });
}
