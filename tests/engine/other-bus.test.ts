/**
 * Nothing is tied to one bus voltage. A cabinet whose voltages are all times k, its currents over k, its impedances times k² on
 * the same powers and times is the same cabinet (dimensional analysis: E. Buckingham, Physical Review 4, 345, 1914). With k a
 * power of two all scale without rounding, so that whatever differs beyond rounding is a constant in volts, amperes or ohms
 * that does not go with the bus. Steps, log and findings are compared. What only chooses when a step is looked at does not show here.
 */
import { describe, expect, it } from 'vitest';
import { run } from '../../src/run.ts';
import { atOtherBus } from './at-other-bus.ts';
import { type SmallCabinet, smallCabinet } from './small-cabinet.ts';

const small: SmallCabinet = {
  ...{ trays: 1, banks: 1, batteries: 1, sleds: 2 },
  load: '{ kind: step, before: 6 kW, after: 20 kW, at: 20 ms, edge: 1 ms }',
  duration: '0.3 s',
  events: [],
};

const stories: readonly (readonly [string, Partial<SmallCabinet>])[] = [
  ['a step of the load', {}],
  [
    'AC that is lost, and batteries that take over',
    { events: ['at: 50 ms, what: ac-loss, unit: F1'], duration: '0.3 s' },
  ],
  ['a sled that shorts', { events: ['at: 50 ms, what: sled-short, unit: sled-2, to: 20 mΩ, for: 0.3 ms'] }],
  ['a bank that opens', { events: ['at: 50 ms, what: bank-out, unit: K1'] }],
  [
    'sleds that throttle',
    {
      batteries: 0,
      changes: {
        'sleds.throttle_voltage': '49.3 V',
        'sleds.throttle_level': '50 %',
        'sleds.throttle_release': '1 ms',
      },
      events: ['at: 50 ms, what: ac-loss, unit: F1'],
      duration: '0.2 s',
    },
  ],
];

describe('a cabinet on another bus of the same powers is the same cabinet', () => {
  for (const k of [8, 16])
    for (const [what, changes] of k === 8 ? stories : stories.slice(0, 2))
      it(`${50 * k} V: ${what}`, () => {
        const scenario = smallCabinet({ ...small, ...changes });
        const [here, there] = [scenario, atOtherBus(scenario, k)].map((one) => run(one, null));
        expect(there!.result.log.map(({ tick, who, what }) => [tick, who, what])).toEqual(
          here!.result.log.map(({ tick, who, what }) => [tick, who, what]),
        );
        // To 1e-4 of what a limit allows: a corrector ends its rounds a little earlier or later.
        const found = ({ report }: typeof here & object) =>
          report.findings.map(({ id, verdict, headroom_ratio }) => [
            id,
            verdict,
            headroom_ratio === null ? null : Math.round(headroom_ratio * 1e4),
          ]);
        expect(found(there!)).toEqual(found(here!));
        // Rounding decides where the search for rest ends, and with it one step at the start.
        expect(Math.abs(there!.report.engine.steps - here!.report.engine.steps)).toBeLessThanOrEqual(1);
      });
});
