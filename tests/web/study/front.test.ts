/** Which designs are drawn, and where. */
import { expect, it } from 'vitest';
import type { DesignRow } from '../../../src/studies/designs/report.ts';
import { placesOf } from '../../../web/study/front.ts';

const row = (standing: DesignRow['standing'], losses: number | null, headroom: number | null): DesignRow =>
  ({
    values: {},
    standing,
    objectives: { losses, headroom: standing === 'fails' ? null : headroom },
    run: { tightest_ratio: headroom },
  }) as unknown as DesignRow;

it('draws designs that failed on their way at the tightest of what was run, so that what was tried is seen', () => {
  const report = { objectives: ['losses', 'headroom'] as const, designs: [row('fails', 3.6e6, -0.2)] };
  expect(placesOf(report).map(({ x, y }) => [x, y])).toEqual([[1, -0.2]]);
  // What beats it by its losses alone was not run on: its headroom is not known.
  expect(placesOf({ ...report, designs: [row('beaten', 3.6e6, null)] })).toEqual([]);
  expect(placesOf({ ...report, designs: [row('fails', null, -1)] })).toEqual([]);
});
