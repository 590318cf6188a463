/** The verdict: one word, one sentence, then every limit as the share of its allowance that is used. */

import type { Finding, FindingVerdict, Report, Verdict } from '../src/analysis/judge/report.ts';
import { counted } from '../src/base/counted.ts';
import type { Bundle } from '../src/bundle/format.ts';
import { html } from './dom.ts';
import type { Lens } from './lens.ts';
import { duration, moment, wholePercent, withUnit } from './numbers.ts';

const words: Readonly<globalThis.Record<Verdict, string>> = {
  pass: 'Pass',
  pass_with_conditions: 'Pass with conditions',
  fail: 'Fail',
  inconclusive: 'Inconclusive',
};

/** Glyph and word of each way a limit can come out: told by shape and word, not by colour. */
const marks: Readonly<globalThis.Record<FindingVerdict, readonly [glyph: string, word: string]>> = {
  fail: ['✕', 'fail'],
  pass: ['✓', 'pass'],
  waived: ['≈', 'waived'],
  inconclusive: ['?', 'inconclusive'],
  not_applicable: ['–', 'not applicable'],
};

const order: readonly FindingVerdict[] = ['fail', 'pass', 'waived', 'inconclusive', 'not_applicable'];

export function showVerdict(host: HTMLElement, lens: Lens, { report }: Bundle): void {
  const counts = order
    .map((kind) => [kind, report.findings.filter(({ verdict }) => verdict === kind).length] as const)
    .filter(([, count]) => count > 0)
    .map(([kind, count]) =>
      html('span', { class: `count ${kind}` }, `${marks[kind][0]} ${count} ${marks[kind][1]}`),
    );
  const detail = html('div', { class: 'detail', 'aria-live': 'polite', hidden: true });
  const all = sorted(report.findings);
  const open = all.filter(({ verdict }) => verdict === 'inconclusive');
  const told = all.filter(({ verdict }) => verdict !== 'inconclusive');
  const failed = told.filter(({ verdict }) => verdict === 'fail' || verdict === 'waived').length;
  const arising = told.filter(({ verdict }) => verdict !== 'not_applicable').length;
  const first = told.slice(0, Math.min(arising, Math.max(shownFirst, failed)));
  const rest = told.slice(first.length);
  const lists = html('div', { role: 'group', 'aria-label': 'limits, the binding one first' });
  const row = (finding: Finding): HTMLElement => findingRow(finding, lists, detail, lens);
  const fold = (words: string, findings: readonly Finding[], start: number): void => {
    if (findings.length === 0) return;
    const summary = html('summary', {}, words);
    lists.append(html('details', { class: 'rest' }, summary, twoColumns(findings, start, row)));
  };
  lists.append(twoColumns(first, 1, row));
  fold(restInWords(rest), rest, first.length + 1);
  fold(openInWords(open), open, told.length + 1);
  host.append(
    html(
      'div',
      { class: `word ${report.verdict}` },
      html('h2', { id: 'verdict-word' }, words[report.verdict]),
      html('p', { id: 'verdict-summary' }, report.summary),
      html(
        'p',
        { class: 'day' },
        report.judged_on === null ? 'Day of judgement not stated.' : `Judged on ${report.judged_on}.`,
      ),
      report.failure === null
        ? null
        : html('p', { class: 'failure' }, `Status ${report.status}: ${report.failure}`),
      outcomeOf(report),
      html('p', { class: 'counts' }, ...counts),
    ),
    keyFigures(report),
    basisList(report),
    html(
      'p',
      { class: 'scale-note' },
      'Each bar shows how much of the allowed deviation is used: the mark is the limit, the gap before it the headroom. Choose a limit to go to its moment.',
    ),
    lists,
  );
}

/** What became of the cabinet; how it came to it is folded away. */
function outcomeOf({ outcome }: Report): HTMLElement | null {
  if (outcome.kind === 'steady') return null;
  const line = `Outcome ${outcome.kind}: ${outcome.because}.`;
  if (outcome.chain.length === 0) return html('p', { class: 'outcome' }, line);
  return html(
    'details',
    { class: 'outcome' },
    html('summary', {}, line),
    html('ol', {}, ...outcome.chain.map((sentence) => html('li', {}, sentence))),
  );
}

/** What the verdict rests on: conditions open, the rest told. */
function basisList({ basis }: Report): HTMLElement {
  const conditions = basis.filter((one) => one.conditions);
  const items = [...conditions, ...basis.filter((one) => !one.conditions)].map(
    ({ kind, what, by, reason, since, conditions: isCondition }) =>
      html(
        'li',
        { class: isCondition ? 'condition' : 'told' },
        isCondition ? html('strong', {}, `Condition, ${kind}: `) : `${kind}: `,
        what,
        by === null ? null : html('small', {}, ` (${by}${since === null ? '' : `, since ${since}`})`),
        reason === null ? null : html('small', {}, ` ${reason}`),
      ),
  );
  const entries = counted(basis.length, 'entry', 'entries');
  const words =
    conditions.length === 0
      ? `Basis: ${entries}, none a condition`
      : `Basis: ${entries}, ${conditions.length} of them ${conditions.length === 1 ? 'a condition' : 'conditions'}`;
  return html(
    'details',
    { class: 'basis', open: conditions.length > 0 },
    html('summary', {}, words),
    html('ul', {}, ...items),
  );
}

/** What is asked first of any run, before its limits. */
function keyFigures({ metrics: m }: Report): HTMLElement {
  const figures: readonly (readonly [string, string])[] = [
    ['bus, all nodes', `${withUnit(m.bus_min_V, 'V')} to ${withUnit(m.bus_max_V, 'V')}`],
    ['AC power, mean', withUnit(m.ac_power_mean_W, 'W')],
    ['AC ripple, peak to peak', withUnit(m.ac_power_ripple_ratio, 'ratio')],
    ['shelf current, peak', withUnit(m.shelf_current_max_A, 'A')],
    [
      'tray charge',
      `${withUnit(m.tray_soc_min_ratio, 'ratio')} to ${withUnit(m.tray_soc_max_ratio, 'ratio')}`,
    ],
    ['battery starts', String(m.battery_starts_count)],
  ];
  return html(
    'dl',
    { class: 'figures' },
    ...figures.map(([name, value]) => html('div', {}, html('dt', {}, name), html('dd', {}, value))),
  );
}

/** Two lists that are read one after the other, so that an opened row moves only its own column. */
function twoColumns(
  findings: readonly Finding[],
  start: number,
  row: (finding: Finding) => HTMLElement,
): HTMLElement {
  const half = Math.ceil(findings.length / 2);
  const column = (part: readonly Finding[], from: number): HTMLElement =>
    html('ol', { start: from }, ...part.map((finding) => html('li', {}, row(finding))));
  return html(
    'div',
    { class: 'findings' },
    column(findings.slice(0, half), start),
    column(findings.slice(half), start + half),
  );
}

/** So many limits are shown before the fold; whatever fails or is waived stands before it too. */
const shownFirst = 10;

/** What fails, then what is waived, then passes as judged (binding first), what does not arise, what is open. */
function sorted(findings: readonly Finding[]): readonly Finding[] {
  const rank: Readonly<globalThis.Record<FindingVerdict, number>> = {
    fail: 0,
    waived: 1,
    pass: 2,
    not_applicable: 3,
    inconclusive: 4,
  };
  return [...findings].sort((a, b) => rank[a.verdict] - rank[b.verdict]);
}

function openInWords(open: readonly Finding[]): string {
  return `${open.length} inconclusive: the load or the window cannot show them, or they were removed`;
}

function restInWords(rest: readonly Finding[]): string {
  const passes = rest.filter(({ verdict }) => verdict === 'pass');
  const least = Math.min(...passes.map(({ headroom_ratio }) => headroom_ratio ?? Number.POSITIVE_INFINITY));
  const room = Number.isFinite(least) ? ` with ${wholePercent(least)} headroom or more` : '';
  const parts = [
    passes.length === 0 ? null : `${passes.length} more pass${room}`,
    passes.length === rest.length ? null : `${rest.length - passes.length} not applicable`,
  ];
  return parts.filter((part) => part !== null).join('; ');
}

function findingRow(finding: Finding, lists: HTMLElement, detail: HTMLElement, lens: Lens): HTMLElement {
  const [glyph, word] = marks[finding.verdict];
  const row = html(
    'button',
    { type: 'button', class: `finding ${finding.verdict}`, 'aria-pressed': 'false', 'data-id': finding.id },
    html('span', { class: 'glyph', 'aria-hidden': 'true' }, glyph),
    html(
      'span',
      { class: 'title' },
      finding.title,
      finding.column === 'normal' ? null : html('small', {}, `${finding.column} column`),
      html('small', { class: finding.verdict === 'pass' ? 'unseen' : '' }, word),
    ),
    bar(finding),
    ...(isJudged(finding) || finding.reason === null
      ? [
          html('span', { class: 'value' }, readingOf(finding)),
          html('span', { class: 'headroom' }, headroomOf(finding)),
        ]
      : [html('span', { class: 'why' }, finding.reason)]),
  );
  row.addEventListener('click', () => {
    for (const other of lists.querySelectorAll('.finding'))
      other.setAttribute('aria-pressed', String(other === row));
    row.after(detail);
    detail.hidden = false;
    detail.replaceChildren(...explained(finding));
    if (finding.time_s !== null) goTo(finding.time_s, finding.duration_s, lens);
  });
  return row;
}

/** Shows the moment with room around it: ten times the stay, at least 50 ms. */
function goTo(time_s: number, duration_s: number | null, lens: Lens): void {
  const span = Math.max(0.05, 4 * (duration_s ?? 0));
  lens.show(time_s - span / 3, time_s + (2 * span) / 3 + (duration_s ?? 0));
  lens.pin(time_s);
}

function isJudged({ verdict }: Pick<Finding, 'verdict'>): boolean {
  return verdict === 'pass' || verdict === 'fail' || verdict === 'waived';
}

function bar(finding: Finding): HTMLElement {
  const ratio = finding.headroom_ratio;
  const track = html('span', { class: 'track', 'aria-hidden': 'true' });
  if (isJudged(finding) && ratio !== null) {
    // The limit stands at 80 % of the track, so that what lies beyond it has room.
    const used = Math.min(1.25, Math.max(0, 1 - ratio));
    track.append(html('span', { class: 'used', style: `width:${80 * Math.max(0.012, used)}%` }));
  }
  if (finding.verdict !== 'not_applicable') track.append(html('span', { class: 'limit-mark' }));
  return track;
}

function readingOf({ value, limit, unit, count, verdict }: Finding): string {
  if (verdict === 'not_applicable') return '';
  const bound = limit === null ? '' : ` / ${withUnit(limit, unit)}`;
  if (value === null)
    return limit === null ? (count === null ? '' : String(count)) : `limit ${withUnit(limit, unit)}`;
  return `${withUnit(value, unit)}${bound}`;
}

function headroomOf({ headroom_ratio, verdict }: Finding): string {
  if (headroom_ratio === 0 && isJudged({ verdict })) return 'at the limit';
  if (headroom_ratio === null || verdict === 'not_applicable' || verdict === 'inconclusive') return '';
  return headroom_ratio >= 0
    ? `headroom ${wholePercent(headroom_ratio)}`
    : `over by ${wholePercent(-headroom_ratio)}`;
}

function explained(finding: Finding): readonly HTMLElement[] {
  const { node, time_s, duration_s, count, doubt_ratio, bracket, reason, chain, source, column, unit } =
    finding;
  const { share_seen_ratio, worst_outside } = finding;
  const facts = [
    node === null ? null : `at ${node}`,
    time_s === null ? null : `from ${moment(time_s, 0.1)}`,
    duration_s === null ? null : `for ${duration(duration_s)}`,
    count === null ? null : `${count} ${count === 1 ? 'time' : 'times'}`,
    `${column} column`,
    share_seen_ratio === null || share_seen_ratio >= 1
      ? null
      : `read from ${wholePercent(share_seen_ratio)} of the window`,
    doubt_ratio === null ? null : `doubt ${wholePercent(doubt_ratio)} of the allowance`,
    finding.within_doubt ? 'within the doubt' : null,
    bracket === null ? null : `between ${withUnit(bracket[0], unit)} and ${withUnit(bracket[1], unit)}`,
  ].filter((fact) => fact !== null);
  return [
    html('p', {}, html('strong', {}, finding.title), ` · ${facts.join(' · ')}`),
    ...(reason === null ? [] : [html('p', {}, reason)]),
    ...(worst_outside === null
      ? []
      : [html('p', {}, `Worst outside: ${withUnit(worst_outside.value, unit)} (${worst_outside.reason}).`)]),
    ...(chain.length === 0
      ? []
      : [html('div', {}, 'What led there:', html('ol', {}, ...chain.map((step) => html('li', {}, step))))]),
    html(
      'p',
      { class: 'source' },
      `Limit ${finding.id}, source: ${source}. `,
      time_s === null ? null : html('a', { href: '#ruler' }, 'See the traces at this moment'),
    ),
  ];
}
