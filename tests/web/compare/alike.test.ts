import { expect, it } from 'vitest';
import { unlike } from '../../../web/compare/alike.ts';
import { makeRecord } from '../../../web/record.ts';
import { syntheticRun } from '../../fixtures/run.ts';

const words = { before: 'before', after: 'after' };
const short = makeRecord(syntheticRun(2).result.recording);

it('unlike() has nothing to say of two runs of one cabinet over the same time', () => {
  expect(unlike(short, short, words)).toEqual([]);
});

it('unlike() says over which time one run lies over the other', () => {
  const longer = makeRecord(syntheticRun(3).result.recording);
  expect(unlike(short, longer, words)).toEqual([
    'Other spans of time: before from 0 s to 2 s, after from 0 s to 3 s. From 0 s to 2 s one lies over the other; elsewhere one stands alone.',
  ]);
  const late = { ...short, edges_s: short.edges_s.map((t) => t + 5) };
  expect(unlike(short, late, words)[0]).toMatch(/no moment in common/);
});

it('unlike() counts what of the cabinet is another', () => {
  const fewer = {
    ...short,
    channels: short.channels.filter(({ kind, owner }) => kind !== 'tray-charge' || owner !== 'T1'),
  };
  const trays = short.ofKind('tray-charge').length;
  expect(unlike(short, fewer, words)).toEqual([
    `Another cabinet: before has ${trays} trays, after has ${trays - 1}, ${trays - 1} of the same name. Each band goes over all trays of its own run.`,
  ]);
});
