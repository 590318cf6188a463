/**
 * A scenario with the signals as events have left them. A late signal is one of more latency; of one that is lost,
 * frozen, scaled or stuck the linear model knows nothing.
 */
import { BadInput } from '../base/problem.ts';
import type { EventSpec, Scenario } from '../scenario/scenario.ts';

/** Throws BadInput for a signal that the linear model cannot follow. */
export function withSignals(scenario: Scenario, events: readonly EventSpec[]): Scenario {
  let { share, smoothing } = scenario.firmware;
  for (const { what, unit, amount } of events) {
    if (!what.startsWith('signal-') || unit === 'ac') continue;
    if (what !== 'signal-late' && what !== 'signal-jitter') {
      throw new BadInput([
        {
          severity: 'error',
          path: `firmware.${unit}`,
          found: `the signal ${unit} fails (${what}), and the linear model does not include that`,
          expected: 'signals that arrive',
          mend: 'judge from the run alone',
        },
      ]);
    }
    const late = <T extends { readonly latency_s: number }>(values: T): T => ({
      ...values,
      latency_s: values.latency_s + (amount ?? 0),
    });
    if (unit === 'share') share = late(share);
    else if (unit === 'smoothing') smoothing = late(smoothing);
  }
  return { ...scenario, firmware: { ...scenario.firmware, share, smoothing } };
}
