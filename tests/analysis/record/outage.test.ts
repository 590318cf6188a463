import { describe, expect, it } from 'vitest';
import { outageOf } from '../../../src/analysis/record/outage.ts';
import type { RecordedSpan } from '../../../src/events/spans.ts';
import { scenarioOf, span } from '../fixture.ts';

const window = { from_s: 0, to_s: 30 };
const outage = (...spans: readonly RecordedSpan[]) => outageOf(scenarioOf(), spans, window);

describe('an outage', () => {
  it.each([
    ['a unit out', span('out', 'T4', 5, 8, 'taken out')],
    ['AC lost at a shelf', span('ac-lost', 'S1', 5, 8, 'feeder')],
    ['a short', span('short', 'K1', 5, 8)],
    ['a module lost', span('altered', 'S1', 5, 8, 'module-out')],
  ])('is %s, and the ten seconds after it', (_what, lost) => {
    expect(outage(lost)).toMatchObject({ kind: 'real', who: [lost.who], spans: [{ from_s: 5, to_s: 18 }] });
  });

  it('is a link bar that the scenario leaves open, all the time', () => {
    const bars = { links: [{ id: 'A.link1', closed: false }], tie: null } as never;
    expect(outageOf(scenarioOf({ bars }), [], window)).toMatchObject({ kind: 'real', who: ['A.link1'] });
  });

  it('explains what it may bear on: a bar or a sleeping battery shelf leave the AC side as it was', () => {
    const bars = { links: [{ id: 'LA1', closed: true }], tie: null } as never;
    const scenario = scenarioOf({ bars, batteries: [{ id: 'B1' }], banks: [{ id: 'K1' }] } as never);
    const explains = (who: string, quantity: string): boolean =>
      outageOf(scenario, [span('out', who, 5, 8, 'taken out')], window).spansFor(quantity).length > 0;
    expect(['LA1', 'K1', 'B1', 'T4'].filter((who) => explains(who, 'ac-band-ripple'))).toEqual(['T4']);
    expect(['LA1', 'K1', 'B1', 'T4'].filter((who) => explains(who, 'bus-stay'))).toEqual([
      'LA1',
      'K1',
      'B1',
      'T4',
    ]);
    expect(['LA1', 'K1', 'B1', 'T4'].filter((who) => explains(who, 'bar-heat'))).toEqual(['LA1', 'T4']);
  });

  it.each([
    ['a parameter that moved by next to nothing', span('altered', 'S1', 5, null, 'set-point-shift')],
    ['coolant that may be as good as it was', span('altered', 'S1', 5, null, 'coolant-loss')],
    ['a battery that is late, by however little', span('altered', 'B1', 5, null, 'battery-late')],
  ])('is only stated with %s', (_what, altered) => {
    expect(outage(altered).kind).toBe('altered');
  });

  it.each([
    ['nothing', []],
    ['a unit at its limit', [span('at-limit', 'S1', 5, 8, 'current')]],
    ['batteries that carry', [span('carrying', 'B1', 5, 8)]],
    ['less load', [span('out', 'sled-8', 5, 8, 'switched off'), span('out', 'sled-9', 5, 8, 'cut off')]],
  ])('is none with %s', (_what, spans: readonly RecordedSpan[]) => {
    expect(outage(...spans)).toMatchObject({ kind: 'none', who: [], spans: [] });
  });
});
