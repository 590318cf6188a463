import { beforeAll, describe, expect, it } from 'vitest';
import type { ShareReport } from '../../../src/studies/share/report.ts';
import { sharedHere } from '../here.ts';

describe('tests of the share loop', () => {
  let cases: ShareReport['cases'];
  beforeAll(async () => {
    cases = await sharedHere('single-step', 200e3);
  });
  const named = (name: string) => cases.find((c) => c.name.startsWith(name))!;

  it('keeps the steady error near the dead band whatever set points are within their accuracy', () => {
    expect(named('as it is').error_ratio).toBeLessThan(0.02);
    expect(named('set points').error_ratio).toBeLessThan(0.02);
  });

  it('passes a lying sensor on: the shelf that reads 10 % high carries less by about that', () => {
    const { error_ratio } = named('one sensor reads 10 %');
    expect(error_ratio).toBeGreaterThan(0.03);
    expect(error_ratio).toBeLessThan(0.1);
  });

  it('lets a sensor that reads nothing drive its shelf into its current limit, where sharing leaves it out', () => {
    const { error_ratio, trim_ratio } = named('one sensor reads nothing');
    expect(error_ratio).toBeGreaterThan(0.3);
    expect(trim_ratio).toBeLessThan(1);
  });

  it('shows the quantum as a limit cycle where no dead band covers it', () => {
    expect(named('no dead band, quantum').cycle_ratio).toBeGreaterThan(named('as it is').cycle_ratio);
  });

  it('shares among those that are left when a shelf leaves', () => {
    expect(named('a shelf leaves').error_ratio).toBeLessThan(0.03);
  });

  it('takes a shelf in that walks in, and shares with it once it is there', () => {
    const { error_ratio, settling_s } = named('a shelf joins');
    expect(error_ratio).toBeLessThan(0.03);
    // One second of waiting and the better part of ten of walk-in.
    expect(settling_s).toBeGreaterThan(5);
    expect(settling_s).toBeLessThan(12);
  });

  it('runs away slowly where frames are lost for good, for the last error is added up again and again', () => {
    expect(named('all frames lost').error_ratio).toBeGreaterThan(0.1);
    expect(named('nine frames of ten').error_ratio).toBeLessThan(0.03);
  });

  it('shares by rating where ratings are mixed, whether droop matches or not', () => {
    expect(named('one shelf of three modules, droop to match').error_ratio).toBeLessThan(0.03);
    const { error_ratio, trim_ratio } = named('one shelf of three modules, droop as the others');
    expect(error_ratio).toBeLessThan(0.03);
    expect(trim_ratio).toBeGreaterThan(1.5 * named('as it is').trim_ratio);
  });

  it('runs those that are asked for', async () => {
    const only = await sharedHere('single-step', 200e3, ['no quantum']);
    expect(only.map(({ name }) => name)).toEqual(['no quantum']);
  });
});
