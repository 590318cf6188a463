/** The bus limits as lines: each over the time in which its column holds, with the longest stay allowed beyond it. */
import { joined, without } from '../../src/analysis/record/spans.ts';
import type { JudgedRun } from '../../src/bundle/format.ts';
import { duration, withUnit } from '../numbers.ts';
import type { LimitLine } from './limit-lines.ts';

export interface BusLimit extends LimitLine {
  /** The limit of the longest stay on its side: always kept in view. */
  readonly steady: boolean;
}

/** What was judged or left open, from the top down. While a battery carries its column holds, otherwise the other. */
export function busLimits({ report, result, scenario }: JudgedRun): readonly BusLimit[] {
  const window = { from_s: report.window_s.from, to_s: report.window_s.to };
  const carried = joined(result.spans.filter(({ kind }) => kind === 'carrying'));
  const normal = without(window, carried);
  const carry = without(window, normal);
  const lines = new Map<string, BusLimit>();
  for (const { id, column, limit, unit, verdict } of report.findings) {
    const row = scenario.limits.find((one) => one.id === id);
    if (row?.quantity !== 'bus-stay' || limit === null || unit !== 'V' || verdict === 'not_applicable')
      continue;
    const stay = row.stay_s === null || row.stay_s === 0 ? 'never beyond' : `${duration(row.stay_s)} at most`;
    const words = `${withUnit(limit, 'V')}: ${stay}`;
    const key = `${row.side} ${words}`;
    // The same limit in both columns is one line over both times.
    const before = lines.get(key);
    lines.set(key, {
      value: limit,
      words: column === 'carry' && before === undefined ? `${words}, carrying` : words,
      side: row.side,
      spans: joined([...(before?.spans ?? []), ...(column === 'carry' ? carry : normal)]),
      steady: (row.stay_s ?? 0) >= 1,
    });
  }
  return [...lines.values()].filter(({ spans }) => spans.length > 0).sort((a, b) => b.value - a.value);
}
