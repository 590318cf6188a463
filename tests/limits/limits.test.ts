import { expect, test } from 'vitest';
import { carryLimitsOf, limitsOf } from '../../src/limits/applicable.ts';
import { levelsOf } from '../../src/limits/levels.ts';
import { sustainedLengths } from '../../src/limits/sustained.ts';
import type { LimitRow } from '../../src/scenario/limit-row.ts';
import { row } from '../analysis/fixture.ts';

const ground = (limits: readonly LimitRow[]) => ({
  limits,
  limits_basis: { file: 'limits.yaml', compared: true, differences: [] },
  nominal_V: 50,
  rated_W: 240_000,
});

test('bus rows are shares of the nominal voltage, ramps of rated power; other ratios stay ratios', () => {
  const limits = limitsOf(
    ground([
      row('bus', 'bus-stay', 'lower', 0.96),
      row('bus-in-volts', 'bus-stay', 'lower', 47.9, { unit: 'V' }),
      row('ramp', 'ac-ramp-1s', 'upper', 1 / 3, { unit: '1/s' }),
      row('range', 'ac-range-10s', 'upper', 0.2),
      row('share', 'share-transient', 'upper', 0.25),
    ]),
    false,
  );
  expect(limits.map((l) => [l.id, l.value, l.unit, l.column])).toEqual([
    ['bus', 48, 'V', 'normal'],
    ['bus-in-volts', 47.9, 'V', 'normal'],
    ['ramp', 80_000, 'W/s', 'normal'],
    ['range', 48_000, 'W', 'normal'],
    ['share', 0.25, 'ratio', 'normal'],
  ]);
});

test('an outage takes the degraded column, also where it has no number', () => {
  const limits = limitsOf(
    ground([
      row('a', 'trim', 'upper', 0.8, { degraded: 0.9 }),
      row('b', 'trim', 'upper', 0.8, { degraded: null }),
    ]),
    true,
  );
  expect(limits.map((l) => [l.column, l.value])).toEqual([
    ['degraded', 0.9],
    ['degraded', null],
  ]);
});

test('carrying takes the carry column of bus rows; in an outage the wider of the two', () => {
  const limits = [
    row('low', 'bus-stay', 'lower', 0.96, { carry: 0.95, degraded: 0.94 }),
    row('high', 'bus-stay', 'upper', 1.02, { carry: 1.03, degraded: 1.02 }),
    row('ripple', 'ac-band-ripple', 'upper', 0.1),
  ];
  expect(carryLimitsOf(ground(limits), false).map((l) => l.value)).toEqual([47.5, 51.5]);
  expect(carryLimitsOf(ground(limits), true).map((l) => l.value)).toEqual([47, 51.5]);
});

test('the meter counts at every level of every column, and evenly every 0.2 % between the innermost', () => {
  const limits = [
    row('low', 'bus-stay', 'lower', 0.96, { carry: 0.95, degraded: 0.95 }),
    row('high', 'bus-stay', 'upper', 1.02, { degraded: 1.04 }),
    row('share', 'share-transient', 'upper', 0.25),
  ];
  const levels = levelsOf(limits, 50);
  expect([...levels.slice(0, 2), ...levels.slice(-2)]).toEqual([47.5, 48, 51, 52]);
  const inner = [...levels.slice(1, -1)];
  expect(inner).toHaveLength(31);
  inner.forEach((level, k) => {
    expect(level).toBeCloseTo(48 + 0.1 * k, 9);
  });
});

test('a limit is one of the levels to the bit, on any bus', () => {
  const limits = [0.96, 0.95, 0.93, 0.9, 0.86].map((x) => row(`low-${x}`, 'bus-stay', 'lower', x));
  for (const nominal_V of [48, 50, 54, 400, 800]) {
    const levels = levelsOf(limits, nominal_V);
    for (const limit of limitsOf({ ...ground(limits), nominal_V }, false))
      expect(levels).toContain(limit.value);
  }
});

test('a limit is only reported where no column has a number; one number is enough to judge by', () => {
  const none = { carry: null, degraded: null };
  const limits = limitsOf(
    ground([
      row('told', 'trim', 'upper', null, none),
      row('normal', 'trim', 'upper', 0.8, none),
      row('carry', 'trim', 'upper', null, { ...none, carry: 0.8 }),
      row('degraded', 'trim', 'upper', null, { ...none, degraded: 0.8 }),
    ]),
    false,
  );
  expect(limits.map(({ id, reportOnly }) => [id, reportOnly])).toEqual([
    ['told', true],
    ['normal', false],
    ['carry', false],
    ['degraded', false],
  ]);
});

test('a removed limit says from what and by whom, in its own column alone', () => {
  const gone = { from: '0.8', to: 'none', by: '--set', effect: 'removed' } as const;
  const scenario = {
    ...ground([row('a', 'trim', 'upper', null, { degraded: null }), row('b', 'trim', 'upper', null)]),
    limits_basis: {
      file: 'limits.yaml',
      compared: true,
      differences: [
        { limit: 'b', what: 'row', ...gone, effect: 'added' },
        { limit: 'a', what: 'normal', ...gone },
      ],
    },
  } as const;
  const removed = (degraded: boolean) => limitsOf(scenario, degraded).map((limit) => limit.removed);
  expect(removed(false)).toEqual(['0.8, removed by --set', null]);
  expect(removed(true)).toEqual([null, null]);
});

test('the lengths asked of what is kept up: stays of sleds and batteries, and the second of means, each once', () => {
  const stay = (id: string, quantity: LimitRow['quantity'], stay_s: number | null) =>
    row(id, quantity, 'upper', 1, { stay_s });
  expect(
    sustainedLengths([
      stay('mean', 'sled-power-1s', null),
      stay('long', 'sled-power', 0.25),
      stay('short', 'sled-power', 0.05),
      stay('never', 'sled-power', 0),
      stay('none', 'battery-current', null),
      stay('again', 'battery-current', 1),
      stay('bus', 'bus-stay', 0.002),
    ]),
  ).toEqual([0.05, 0.25, 1]);
});
