/** The drawing of a cabinet of few sleds: nothing is cut off, no name lies on a bar. */
import { expect, it } from 'vitest';
import { layOut } from '../../../web/cabinet/layout.ts';
import { withUnit } from '../../../web/numbers.ts';
import { shippedWith } from '../../engine/runs.ts';

it('puts the sums below where the sections leave no room between them', () => {
  expect(layOut(shippedWith('pulse-train-800v', {}), 1384).middle).toBeNull();
  expect(layOut(shippedWith('pulse-train', {}), 1384).middle).not.toBeNull();
});

it('names a section at its end where a link bar lies under its fourth place', () => {
  const { sectionLabels, units } = layOut(shippedWith('pulse-train-800v', {}), 1384);
  expect(sectionLabels[0]).toMatchObject({ isAtEnd: true, x: units.at(-1)!.at.x });
  expect(layOut(shippedWith('pulse-train', {}), 1384).sectionLabels[0]!.isAtEnd).toBe(false);
});

it('writes no minus before nothing', () => {
  expect([withUnit(-0.04, 'A'), withUnit(-0.06, 'A')]).toEqual(['0.0 A', '−0.1 A']);
});
