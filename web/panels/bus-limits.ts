/** The bus limits as lines: each over the time in which its column holds, with the longest stay allowed beyond it. */
import { joined, without } from '../../src/analysis/record/spans.ts';
import type { JudgedRun } from '../../src/bundle/format.ts';
import type { Span } from '../../src/events/spans.ts';
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
  const lines = new Map<string, Line>();
  for (const { id, column, limit, unit, verdict } of report.findings) {
    const row = scenario.limits.find((one) => one.id === id);
    if (row?.quantity !== 'bus-stay' || limit === null || unit !== 'V' || verdict === 'not_applicable')
      continue;
    const { side, stay_s } = row;
    const spans = column === 'carry' ? carry : normal;
    if (spans.length === 0) continue;
    const line = lines.get(`${side} ${limit}`) ?? { value: limit, side, stays: [] };
    lines.set(`${side} ${limit}`, line);
    line.stays.push({ stay_s: stay_s ?? 0, carry: column === 'carry', spans });
  }
  return [...lines.values()]
    .map(({ value, side, stays }) => ({
      value,
      side,
      words: `${side === 'lower' ? 'below' : 'above'} ${withUnit(value, 'V')}: ${staysInWords(stays)}`,
      spans: joined(stays.flatMap(({ spans }) => spans)),
      steady: stays.some(({ stay_s }) => stay_s >= 1),
    }))
    .sort((a, b) => b.value - a.value);
}

/** Limits of one side at one voltage: one line with the stays that they allow. */
interface Line {
  readonly value: number;
  readonly side: 'lower' | 'upper';
  readonly stays: Stay[];
}

interface Stay {
  readonly stay_s: number;
  readonly carry: boolean;
  readonly spans: readonly Span[];
}

/** In few words, for a phone has room for no more: the shortest stay of each column, the same in both once. */
function staysInWords(stays: readonly Stay[]): string {
  const shortest = (carry: boolean): string[] => {
    const those = stays.filter((stay) => stay.carry === carry).map(({ stay_s }) => stay_s);
    const least_s = Math.min(...those);
    return those.length === 0 ? [] : [least_s === 0 ? 'never' : `${duration(least_s)} at most`];
  };
  const normal = shortest(false);
  const other = shortest(true).filter((words) => !normal.includes(words));
  return [...normal, ...other.map((words) => `carrying ${words}`)].join(', ');
}
