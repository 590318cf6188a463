/** What a change made of the verdict: the word and the sentence, limits that turned, limits that moved. */
import type { Finding, Report } from '../../src/analysis/judge/report.ts';
import { metricWords } from '../../src/analysis/words/metric-words.ts';
import { numberText } from '../../src/analysis/words/number-text.ts';
import {
  type ChangedFinding,
  type ChangedMetric,
  compare,
  type KeptRun,
} from '../../src/studies/compare/compare.ts';
import { html } from '../dom.ts';
import { wholePercent, withUnit } from '../numbers.ts';

/** Limits that moved without turning, and metrics, shown up to here. */
const shown = 8;
/** A metric that moved by less is not told. */
const told_ratio = 0.001;
/** Digits of a metric: two runs that are nearly the same differ in later digits than a single run shows. */
const significant = 5;

export function difference(before: KeptRun, after: KeptRun): readonly HTMLElement[] {
  const { findings, metrics } = compare(before, after);
  const title = titlesOf(before.report, after.report);
  const turned = findings.filter((finding) => finding.turned);
  const moved = findings.filter(
    (finding) => !finding.turned && finding.after?.value !== finding.before?.value,
  );
  const felt = metrics.filter(({ ratio }) => ratio === null || Math.abs(ratio) >= told_ratio);
  return [
    html(
      'p',
      { class: 'turn' },
      word(before.report),
      html('span', { class: 'arrow' }, ' → '),
      word(after.report),
    ),
    html('p', {}, after.report.summary),
    table('Limits that turned', 'No limit turned.', turned, (one) => findingRow(one, title)),
    table('Limits that moved most', 'No other limit moved.', moved.slice(0, shown), (one) =>
      findingRow(one, title),
    ),
    table('Metrics that moved', 'No metric moved by 0.1 % or more.', felt, metricRow),
  ];
}

function word({ verdict, status }: Report): HTMLElement {
  const words = verdict.replaceAll('_', ' ');
  return html(
    'strong',
    { class: verdict },
    status === 'ok' ? words : `${words}, ${status.replaceAll('_', ' ')}`,
  );
}

function titlesOf(...reports: readonly Report[]): ReadonlyMap<string, string> {
  return new Map(
    reports.flatMap(({ findings }) => findings.map(({ id, title }): [string, string] => [id, title])),
  );
}

function table<T>(
  title: string,
  none: string,
  list: readonly T[],
  row: (one: T) => readonly string[],
): HTMLElement {
  if (list.length === 0) return html('p', { class: 'note' }, none);
  const cells = (tag: 'td' | 'th', words: readonly string[]): HTMLElement[] =>
    words.map((text, k) =>
      html(
        k === 0 ? 'th' : tag,
        k === 0 || tag === 'th' ? { scope: k === 0 && tag === 'td' ? 'row' : 'col' } : {},
        text,
      ),
    );
  return html(
    'table',
    { class: 'bands' },
    html('tr', {}, ...cells('th', [title, 'as run', 'changed'])),
    ...list.map((one) => html('tr', {}, ...cells('td', row(one)))),
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
