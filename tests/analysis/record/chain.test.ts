import { expect, test } from 'vitest';
import { chainTo, momentSaid } from '../../../src/analysis/record/chain.ts';
import { entry } from '../fixture.ts';

test('the chain tells what happened before, oldest first, like units together', () => {
  const log = [
    entry(0.1, 'S3', 'event', 'trips'),
    entry(0.101, 'S1', 'limit-on', 'current limit'),
    entry(0.101, 'S2', 'limit-on', 'current limit'),
    entry(0.4, 'S2', 'dc-stop', 'bulk at 330.0 V, DC stage stops'),
    entry(0.9, 'B1', 'battery-start', 'bus below 48.5 V'),
  ];
  expect(chainTo(log, 0.5)).toEqual([
    'At 0.1 s S3: trips.',
    'At 0.101 s S1, S2: current limit.',
    'At 0.4 s S2: bulk at 330.0 V, DC stage stops.',
  ]);
});

test('of what repeats only the last is told, and of pulses only the last edge', () => {
  const log = [
    entry(1, 'load', 'load-edge', 'rises by 140 kW'),
    entry(1.5, 'T1', 'tray-full', 'at 5 % of its window'),
    entry(2, 'load', 'load-edge', 'falls by 140 kW'),
    entry(2.1, 'T1', 'tray-full', 'at 95 % of its window'),
  ];
  expect(chainTo(log, 2.5)).toEqual(['At 2 s load: falls by 140 kW.', 'At 2.1 s T1: at 95 % of its window.']);
});

test('at most eight are told; what the scenario states is kept before the rest', () => {
  const log = [
    entry(0.5, 'tie', 'event', 'opens'),
    ...Array.from({ length: 20 }, (_, k) => entry(1 + k / 100, `S${k}`, 'limit-on', `limit ${k}`)),
  ];
  const chain = chainTo(log, 1.5);
  expect(chain).toHaveLength(8);
  expect(chain[0]).toBe('At 0.5 s tie: opens.');
  expect(chain[7]).toBe('At 1.19 s S19: limit 19.');
});

test('many that do the like within a millisecond share one sentence, in the words of the first', () => {
  const log = Array.from({ length: 6 }, (_, k) =>
    entry(1 + k * 1e-4, `sled-${k + 1}`, 'sled-cut-off', `off at 36.9${k} V`),
  );
  expect(chainTo(log, 2)).toEqual(['At 1 s sled-1, sled-2, sled-3 and 3 more: off at 36.90 V (the first).']);
});

test('the moment that a sentence tells is read back from it, and from no other text', () => {
  const log = [entry(0.1, 'S3', 'event', 'trips'), entry(12.34567, 'S1', 'limit-on', 'current limit')];
  expect(chainTo(log, 13).map(momentSaid)).toEqual([0.1, 12.3457]);
  expect(momentSaid('S3 trips at 0.1 s.')).toBe(null);
});
