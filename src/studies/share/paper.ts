/** Tests of the share loop as a table. */
import { csvTable, markdownTable, type PlainRow } from '../tables.ts';
import type { ShareReport } from './report.ts';

export function shareHeading({ load_W }: ShareReport): string {
  return `Sharing at ${(load_W / 1e3).toFixed(1)} kW, of rated current; cycle: peak to peak over the last second`;
}

export const shareHead = [
  'case',
  'error',
  'cycle',
  'settles',
  'largest trim of its clamp',
  'lowest shelf',
] as const;

export function shareRows({ cases }: ShareReport): PlainRow[] {
  const percent = (ratio: number): string => `${(100 * ratio).toFixed(2)} %`;
  return cases.map(({ name, error_ratio, cycle_ratio, settling_s, trim_ratio, bus_V }) => [
    name,
    percent(error_ratio),
    percent(cycle_ratio),
    settling_s === null ? 'not in 5 s' : `${settling_s.toFixed(2)} s`,
    percent(trim_ratio),
    `${bus_V.toFixed(2)} V`,
  ]);
}

export function shareMarkdown(report: ShareReport): string {
  return [`# ${shareHeading(report)}`, markdownTable(shareHead, shareRows(report)), ''].join('\n\n');
}

export function shareCsv({ cases }: ShareReport): string {
  const keys = ['error_ratio', 'settling_s', 'cycle_ratio', 'trim_ratio', 'bus_V'] as const;
  return csvTable(
    ['case', ...keys],
    cases.map((one) => [one.name, ...keys.map((key) => one[key])]),
  );
}
