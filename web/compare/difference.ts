/** What differs between two runs as people read it: the verdict's word and sentence, limits that turned, limits that moved. */
import type { Finding, Report } from '../../src/analysis/judge/report.ts';
import { metricWords } from '../../src/analysis/words/metric-words.ts';
import { numberText } from '../../src/analysis/words/number-text.ts';
import type {
  ChangedFinding,
  ChangedMetric,
  ComparedRun,
  Comparison,
} from '../../src/studies/compare/compare.ts';
import { html } from '../dom.ts';
import { wholePercent, withUnit } from '../numbers.ts';
import type { SideWords } from './traces.ts';

/** Rows of a table that are open. */
const shown = 8;
/** A metric that moved by less is not told. */
const told_ratio = 0.001;
/** Digits of a metric: two runs that are nearly the same differ in later digits than a single run shows. */
const significant = 5;

export interface Difference {
  /** The verdict, then and now. */
  readonly verdict: readonly HTMLElement[];
  /** What moved, as tables. */
  readonly tables: readonly HTMLElement[];
}

/** `titles` of limits by their id. */
export function difference(
  { before, after, findings, metrics }: Comparison,
  titles: ReadonlyMap<string, string>,
  words: SideWords,
): Difference {
  const turned = findings.filter((finding) => finding.turned);
  const moved = findings.filter((one) => !one.turned && one.after?.value !== one.before?.value);
  const felt = metrics.filter(({ ratio }) => ratio === null || Math.abs(ratio) >= told_ratio);
  const limits = (name: string, none: string, list: readonly ChangedFinding[]): HTMLElement =>
    table([name, words.before, words.after], none, list, (one) => findingRow(one, titles));
  return {
    verdict: [html('p', { class: 'turn' }, word(before), ' → ', word(after)), html('p', {}, after.summary)],
    tables: [
      limits('Limits that turned', 'No limit turned.', turned),
      limits('Limits that moved', 'No other limit moved.', moved),
      table(
        ['Metrics that moved', words.before, words.after],
        'No metric moved by 0.1 % or more.',
        felt,
        metricRow,
      ),
    ],
  };
}

function word({ verdict, status }: Pick<ComparedRun, 'verdict' | 'status'>): HTMLElement {
  const words = verdict.replaceAll('_', ' ');
  return html(
    'strong',
    { class: verdict },
    status === 'ok' ? words : `${words}, ${status.replaceAll('_', ' ')}`,
  );
}

export function titlesOf(...reports: readonly Report[]): ReadonlyMap<string, string> {
  return new Map(
    reports.flatMap(({ findings }) => findings.map(({ id, title }): [string, string] => [id, title])),
  );
}

/** The first rows open, the others folded away. */
function table<T>(
  heads: readonly string[],
  none: string,
  list: readonly T[],
  row: (one: T) => readonly string[],
): HTMLElement {
  if (list.length === 0) return html('p', { class: 'note' }, none);
  const rows = list.map((one) => {
    const [name = '', ...values] = row(one);
    return html(
      'tr',
      {},
      html('th', { scope: 'row' }, name),
      ...values.map((value) => html('td', {}, value)),
    );
  });
  const head = html('tr', {}, ...heads.map((words) => html('th', { scope: 'col' }, words)));
  const more = rows.slice(shown);
  return html(
    'div',
    {},
    html('table', { class: 'moved' }, head, ...rows.slice(0, shown)),
    more.length === 0
      ? null
      : html(
          'details',
          {},
          html('summary', {}, `${more.length} more`),
          html('table', { class: 'moved' }, ...more),
        ),
  );
}

function findingRow(
  { id, before, after }: ChangedFinding,
  titles: ReadonlyMap<string, string>,
): readonly string[] {
  const column = (after ?? before)?.column === 'carry' ? ', while batteries carry' : '';
  return [`${titles.get(id) ?? id}${column}`, side(before), side(after)];
}

type Side = Pick<Finding, 'verdict' | 'value' | 'unit' | 'headroom_ratio'>;

function side(one: Side | null): string {
  if (one === null) return 'not a limit';
  const { verdict, value, unit, headroom_ratio } = one;
  const judged = value === null ? '' : ` ${withUnit(value, unit)}`;
  const room =
    headroom_ratio === null
      ? ''
      : headroom_ratio >= 0
        ? `, headroom ${wholePercent(headroom_ratio)}`
        : `, over by ${wholePercent(-headroom_ratio)}`;
  return `${verdict.replaceAll('_', ' ')}${judged}${room}`;
}

function metricRow({ name, before, after }: ChangedMetric): readonly string[] {
  const [, words, unit] = metricWords.find(([metric]) => metric === name) ?? [name, name, ''];
  const text = (value: number | null): string =>
    value === null ? 'none' : numberText(value, unit, significant);
  return [words, text(before), text(after)];
}
