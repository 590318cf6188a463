import { expect, test } from 'vitest';
import { judgedApart } from '../../../src/analysis/judge/judged-apart.ts';
import type { Finding, Metrics } from '../../../src/analysis/judge/report.ts';

const finding = (id: string, value: number | null, unit: string) =>
  ({ id, value, unit, bracket: null }) as Finding;

test('a metric is told with its finding where the finding left moments out, and only there', () => {
  const metrics = { ac_ramp_100ms_W_per_s: 2e6, ac_ramp_1s_W_per_s: 5e4, tray_soc_min_ratio: 0.2 } as Metrics;
  const findings = [
    finding('ac-ramp-100ms', 6e4, 'W/s'),
    finding('ac-ramp-1s', 5e4 * (1 + 1e-9), 'W/s'),
    finding('tray-charge-low', null, 'ratio'),
  ];
  expect(judgedApart({ metrics, findings })).toEqual([
    { metric: 'ac_ramp_100ms_W_per_s', value: 2e6, finding: findings[0], judged: 6e4 },
  ]);
});
