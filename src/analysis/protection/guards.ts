/** The protection of a scenario while it runs: takes the guarded currents at the end of every step. */
import type { WaveformOrder } from '../../engine/meters/waveforms.ts';
import type { GuardSpec } from '../../scenario/scenario.ts';
import type { Stated } from '../record/stated.ts';
import { ExcursionMeter } from './excursion-meter.ts';
import { guardedCurrent } from './guarded-current.ts';
import type { Protection } from './protection.ts';

export class Guards {
  readonly order: WaveformOrder;
  private readonly watched: readonly {
    readonly guard: GuardSpec;
    readonly unit: string;
    readonly meter: ExcursionMeter;
  }[];

  constructor(scenario: Stated, guards: readonly GuardSpec[]) {
    const all = guards.flatMap((guard) =>
      guard.guards.map((unit) => ({
        guard,
        unit,
        current: guardedCurrent(scenario, unit),
        meter: new ExcursionMeter(guard.curve, guard.values.rating_A, scenario.duration_s),
      })),
    );
    this.watched = all;
    this.order = {
      series: all.flatMap(({ current }) => current.channels.map((id) => ({ id, of: [id], usual: false }))),
      pace: { kind: 'every-step' },
      take: (time_s, values) => {
        let at = 0;
        for (const { current, meter } of all) {
          meter.take(time_s, current.current_A(values, at));
          at += current.channels.length;
        }
      },
    };
  }

  /** The run is over. */
  protection(): Protection {
    for (const { meter } of this.watched) meter.end();
    return {
      units: this.watched.map(({ guard, unit, meter }) => ({
        protection: guard.id,
        unit,
        rating_A: guard.values.rating_A,
        peak_A: meter.peak_A,
        nearest: meter.nearest(),
        goes_on: meter.goesOn(),
      })),
    };
  }
}

/** What guards a scenario's currents while it runs; null where it gives no curve. */
export function guardsOf(scenario: Stated): Guards | null {
  return scenario.protection === undefined ? null : new Guards(scenario, scenario.protection);
}
