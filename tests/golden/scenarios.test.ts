/** Every shipped scenario run whole against its golden scalars: `goldens.ts` has them with what may move. */
import { describe, expect, it } from 'vitest';
import { run } from '../../src/run.ts';
import { shippedWith } from '../engine/runs.ts';
import { boundOf, bounds, type GoldenMetric, goldens } from './goldens.ts';

describe('shipped scenarios', () => {
  it.each(Object.entries(goldens))('%s', (name, golden) => {
    const scenario = shippedWith(name);
    const { report } = run(scenario, null);
    const { metrics } = report;
    expect(report.status).toBe('ok');
    expect(report.verdict).toBe(golden.verdict);
    for (const metric of Object.keys(bounds) as GoldenMetric[]) {
      const off = Math.abs((metrics[metric] ?? Number.NaN) - golden[metric]);
      expect(off, metric).toBeLessThan(boundOf(golden, metric));
    }
    expect(metrics.battery_starts_count).toBe(golden.battery_starts_count);
    // Where an outage is stated, the bus is judged in the degraded column; elsewhere never.
    const columns = new Set(report.findings.map(({ column }) => column));
    expect(columns.has('degraded')).toBe(scenario.outage);
  });
});
