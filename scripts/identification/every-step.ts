import { simulate } from '../../src/engine/simulate.ts';
import { makeDemand } from '../../src/loads/make-demand.ts';
import type { Curves } from '../../src/measured/curve/curve.ts';
import { CurveKeeper } from '../../src/measured/curve/curve-keeper.ts';
import type { MeasuredColumn } from '../../src/measured/measurement.ts';
import { assemble } from '../../src/network/network.ts';
import type { Scenario } from '../../src/scenario/scenario.ts';

/** Chosen channels of a run at the end of every step, as `export --every-step` writes them. */
export interface Rows {
  readonly channels: readonly string[];
  readonly time_s: readonly number[];
  /** Channel by channel, in their order. */
  readonly values: readonly (readonly number[])[];
  readonly window: Curves['window'];
}

export function everyStep(scenario: Scenario, channels: readonly string[]): Rows {
  const time_s: number[] = [];
  const values = channels.map((): number[] => []);
  const { window } = simulate(assemble(scenario), makeDemand(scenario, undefined), {
    levels_V: new Float64Array(0),
    waveforms: [
      {
        series: channels.map((id) => ({ id, of: [id], usual: false })),
        pace: { kind: 'every-step' },
        take: (t, row) => {
          time_s.push(t);
          for (let c = 0; c < channels.length; c++) values[c]!.push(row[c]!);
        },
      },
    ],
  });
  return { channels, time_s, values, window };
}

/** The same run as it is laid beside a measurement. */
export function curvesOf(rows: Rows, columns: readonly MeasuredColumn[]): Curves {
  const keeper = new CurveKeeper(columns);
  const places = keeper.order.series.map(({ id }) => rows.channels.indexOf(id));
  const row = new Float64Array(places.length);
  rows.time_s.forEach((t, i) => {
    places.forEach((place, c) => {
      row[c] = rows.values[place]![i]!;
    });
    keeper.order.take(t, row);
  });
  return keeper.curves(rows.window);
}
