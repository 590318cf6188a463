/** The numbers of the whole window: all of them in columns, or the few that are asked for first in a line. */
import { judgedApart } from '../../analysis/judge/judged-apart.ts';
import type { Report } from '../../analysis/judge/report.ts';
import { metricWords } from '../../analysis/words/metric-words.ts';
import { numberText } from '../../analysis/words/number-text.ts';
import { alignColumns, wrap } from './columns.ts';

/** Name and number side by side, as many pairs in a row as the width takes. */
export function metricsText(report: Report, width: number): string[] {
  const cells = metricWords.map(([key, words, unit]) => {
    const value = report.metrics[key];
    return [words, value === null ? 'none' : numberText(value, unit)] as const;
  });
  for (const { low_Hz, high_Hz, ripple_ratio } of report.bands) {
    const value = ripple_ratio === null ? 'none' : ripple(ripple_ratio);
    cells.push([`AC ripple ${low_Hz}–${high_Hz} Hz`, value]);
  }
  const pairs = width >= 110 ? 3 : width >= 76 ? 2 : 1;
  const perColumn = Math.ceil(cells.length / pairs);
  const rows = Array.from({ length: perColumn }, (_, r) =>
    Array.from({ length: pairs }, (_, p) => cells[p * perColumn + r] ?? ['', '']).flat(),
  );
  return alignColumns(rows, new Set([1, 3, 5])).map((row) => {
    const paired: string[] = [];
    for (let k = 0; k < row.length; k += 2) paired.push(`${row[k]} ${row[k + 1]}`);
    return paired.join('    ').trimEnd();
  });
}

/** Metrics that a finding of the same name sees otherwise. */
export function apartText(report: Report, width: number): string[] {
  const pairs = judgedApart(report).map(
    ({ value, finding: { id, unit }, judged }) =>
      `${id} judges ${numberText(judged, unit)}, the whole window has ${numberText(value, unit)}`,
  );
  if (pairs.length === 0) return [];
  const text = `Metrics cover the whole window; findings leave out when their limit does not apply: ${pairs.join('; ')}.`;
  return wrap(text, width, '  ');
}

/** Less than this is what rounding leaves. */
const leastRipple_ratio = 1e-5;

function ripple(ratio: number): string {
  return ratio < leastRipple_ratio ? 'below 0.001 %' : numberText(ratio, 'ratio');
}

/** Bus, AC side, shelves, trays and batteries in a sentence. */
export function fewMetrics({ metrics: m }: Report, width: number): string[] {
  const number = (value: number | null, unit: string): string =>
    value === null ? 'none' : numberText(value, unit);
  const parts = [
    `bus ${number(m.bus_min_V, 'V')} to ${number(m.bus_max_V, 'V')}`,
    `AC ${number(m.ac_power_mean_W, 'W')}, ripple ${number(m.ac_power_ripple_ratio, 'ratio')}`,
    `shelf peak ${number(m.shelf_current_max_A, 'A')}`,
    `trays ${number(m.tray_soc_min_ratio, 'ratio')} to ${number(m.tray_soc_max_ratio, 'ratio')}`,
    `battery starts ${m.battery_starts_count}`,
  ];
  return wrap(`metrics ${parts.join('; ')}`, width, '        ');
}
