/** The curve over duty and period: pulse trains against the steady load that the same cabinet takes. */
import { BadInput } from '../../base/problem.ts';
import { formatQuantity } from '../../base/quantity.ts';
import type { ReadScenario } from '../../scenario/read.ts';
import type { Situation } from '../written/situations.ts';
import { digits } from './scales.ts';
import type { CurvePoint, RatingTask } from './task.ts';

/** The steady load, then a pulse train for each period and duty. */
export function pulsedTasks(
  situation: Situation,
  { scenario: { load } }: ReadScenario,
  scales: readonly number[],
  { duties, periods }: { readonly duties: readonly string[]; readonly periods: readonly string[] },
): { readonly tasks: readonly RatingTask[]; readonly points: readonly CurvePoint[] } {
  if (load.kind !== 'pulse-train') {
    throw new BadInput([
      {
        severity: 'error',
        path: 'load.kind',
        found: `a load of kind ${load.kind}`,
        expected: 'a pulse train, for a curve over duty and period',
        mend: 'rate a scenario with load: { kind: pulse-train, … }',
      },
    ]);
  }
  const power = (value: number): string => formatQuantity(value, 'power', digits);
  const points = (periods.length === 0 ? [`${load.period_s} s`] : periods).flatMap((period) =>
    (duties.length === 0 ? [String(load.duty_ratio)] : duties).map((duty) => ({ duty, period })),
  );
  return {
    points,
    tasks: [
      {
        situation,
        // A pulse train whose levels are the same is a steady load.
        changes: scales.map((scale) => [
          { path: 'load.low', value: power(load.high_W * scale) },
          { path: 'load.high', value: power(load.high_W * scale) },
        ]),
      },
      ...points.map(({ duty, period }) => ({
        situation,
        // The low level of the pulses stays what it is.
        changes: scales.map((scale) => [
          { path: 'load.period', value: period },
          { path: 'load.duty', value: duty },
          { path: 'load.high', value: power(Math.max(load.low_W, load.high_W * scale)) },
        ]),
      })),
    ],
  };
}
