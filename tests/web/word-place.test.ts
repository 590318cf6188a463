import { expect, it } from 'vitest';
import type { Box } from '../../web/frame.ts';
import { line_px, placeWords } from '../../web/panels/word-place.ts';

const [width, height] = [500, 100];

it('placeWords() keeps words of crowded lines whole inside the panel and clear of each other', () => {
  const taken: Box[] = [];
  for (const [at, right] of [
    [2, 490],
    [3, 490],
    [5, 490],
    [50, 130],
    [51, 490],
    [99, 490],
  ] as const)
    taken.push(placeWords(120, right, at, 'upper', height, taken)!);
  for (const { left, top } of taken) {
    expect(left).toBeGreaterThanOrEqual(0);
    expect(left + 120).toBeLessThanOrEqual(width);
    expect(top).toBeGreaterThanOrEqual(0);
    expect(top + line_px).toBeLessThanOrEqual(height);
  }
  taken.forEach((a, k) => {
    for (const b of taken.slice(k + 1)) {
      const apart = Math.abs(a.top - b.top) >= line_px || Math.abs(a.left - b.left) >= 120;
      expect(apart, `${JSON.stringify(a)} and ${JSON.stringify(b)}`).toBe(true);
    }
  });
});

it('placeWords() stands beyond the limit on its side, or on the other where the panel ends', () => {
  expect(placeWords(120, 490, 50, 'upper', height, [])!.top).toBeLessThan(50);
  expect(placeWords(120, 490, 50, 'lower', height, [])!.top).toBeGreaterThan(50);
  expect(placeWords(120, 490, 98, 'lower', height, [])!.top).toBeLessThan(98);
});

it('placeWords() stands on the other side rather than across another line', () => {
  expect(placeWords(120, 490, 50, 'lower', height, [], [50, 65])!.top).toBeLessThan(50);
  expect(placeWords(120, 490, 50, 'lower', height, [], [50, 70])!.top).toBeGreaterThan(50);
});

it('placeWords() has no place where all are taken', () => {
  const wall = [35, 52].map((top) => ({ left: 0, top, width }));
  expect(placeWords(120, 490, 50, 'upper', height, wall)).toBe(null);
});
