/**
 * What neighbouring bars induce in each other. Filaments: M/l = 2·10⁻⁷ ln(D_ab' D_a'b/(D_aa' D_bb')) by distances (Grover,
 * Inductance Calculations, 1946); the numbers of the page are those of the shipped bars, worked out here again.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Bars } from '../../src/copper/bars.ts';
import { coupling, mutualInductance_H } from '../../src/copper/coupling.ts';
import { readShipped } from '../scenario/shipped.ts';

describe('square bars of 2 mm are as filaments', () => {
  const wires: Bars = {
    ...{ width_m: 2e-3, thickness_m: 2e-3, count: 1, gap_m: 0.018, length_m: 1, temperature_degC: 20 },
  };
  const s = 0.02;
  test.each([0.05, 0.1, 0.25])('%d m away', (d) => {
    expect(mutualInductance_H(wires, d, 0) / (2e-7 * Math.log((d * d - s * s) / (d * d)))).toBeCloseTo(1, 4);
    expect(mutualInductance_H(wires, 0, d) / (2e-7 * Math.log((d * d + s * s) / (d * d)))).toBeCloseTo(1, 4);
  });
});

test('shipped bars stay below the bound of filaments, and the page says what they are', () => {
  const byDimensions = [
    'models/reference-cabinet.yaml',
    'bars-copper.yaml',
    'bars-by-dimensions.yaml',
  ] as const;
  const { bars } = readShipped('scenarios/single-step.yaml', [byDimensions]).scenario;
  const piece = (part: typeof bars.segment): Bars => ({
    ...{ width_m: part.width_m, thickness_m: part.thickness_m, count: part.bars_count },
    ...{ gap_m: part.gap_m, length_m: part.length_m, temperature_degC: part.temperature_degC },
  });
  const link = piece(bars.links[0]!);
  const segment = piece(bars.segment);
  const rows = [
    ['two link bars a place apart, edge to edge', coupling(link, 0, 0.25)],
    ['two link bars a place apart, face to face', coupling(link, 0.25, 0)],
    ['sections 0.4 m apart, face to face', coupling(segment, 0.4, 0)],
    ['section and rack bar 0.5 m apart, face to face', coupling(segment, 0.5, 0)],
    ['sections 0.2 m apart, face to face', coupling(segment, 0.2, 0)],
  ] as const;
  const page = readFileSync('src/devices/bar/bar.md', 'utf8');
  for (const [which, ratio] of rows) {
    expect(page).toContain(`| ${which} | ${(100 * ratio).toPrecision(2)} % |`);
  }
  // The page's bound: filaments in the middles of the poles, 50 mm apart.
  for (const d of [0.2, 0.4, 0.5]) {
    const bound_H = -2e-7 * Math.log(1 - (0.05 / d) ** 2) * segment.length_m;
    expect(Math.abs(mutualInductance_H(segment, d, 0))).toBeLessThan(bound_H);
    expect(Math.abs(mutualInductance_H(segment, d, 0))).toBeGreaterThan(0.8 * bound_H);
  }
});
