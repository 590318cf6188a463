/** A life that falls short is in no verdict of a run: its basis says so, and who judges it. */
import { expect, it } from 'vitest';
import { livesBasis } from '../../src/analysis/basis/lives.ts';
import type { Finding } from '../../src/analysis/judge/report.ts';
import type { Cycle } from '../../src/analysis/record/cycle.ts';

const life = (value: number): Finding =>
  ({
    id: 'tray-life',
    verdict: 'not_applicable',
    unit: 's',
    value,
    limit: 5 * 8766 * 3600,
    node: 'T1',
  }) as Finding;
const cycle = {} as Cycle;

it('names the life, the requirement and the study that judges it', () => {
  const [told] = livesBasis(cycle, [life(3 * 8766 * 3600)]);
  expect(told).toMatchObject({ kind: 'assumed' });
  expect(told!.what).toBe(
    'tray-life is judged by buswake duty, not by a run: under this load, uninterrupted, T1 lasts about 3 years, less than the 5 years required',
  );
});

it('says nothing of a life that is long enough, nor of a load that does not repeat', () => {
  expect(livesBasis(cycle, [life(6 * 8766 * 3600)])).toEqual([]);
  expect(livesBasis('does not repeat', [life(3 * 8766 * 3600)])).toEqual([]);
});
