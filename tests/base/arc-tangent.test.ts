/** Held to Math.atan2, which is good to a unit in the last place. */
import { expect, it } from 'vitest';
import { arcTangent } from '../../src/base/arc-tangent.ts';

it('the arc tangent is that of the platform to 1e-15, all round and over twelve orders of magnitude', () => {
  for (let k = 0; k < 20_000; k++) {
    const turn = (2 * Math.PI * k) / 20_000 + 1e-5;
    const [x, y] = [Math.cos(turn) * 10 ** ((k % 7) - 3), Math.sin(turn) * 10 ** ((k % 5) - 2)];
    expect(Math.abs(arcTangent(y, x) - Math.atan2(y, x)), `${x}, ${y}`).toBeLessThan(1e-15);
  }
});

it('has its ends', () => {
  expect([
    arcTangent(0, 1),
    arcTangent(0, -1),
    arcTangent(1, 0),
    arcTangent(-1, 0),
    arcTangent(0, 0),
  ]).toEqual([0, Math.PI, Math.PI / 2, -Math.PI / 2, 0]);
});
