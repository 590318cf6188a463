/** The AC side in the grid's words: each feeder at its point of connection, and the groups of its line current. */
import type { Finding, GridFeeder, Report } from '../src/analysis/judge/report.ts';
import type { Bundle } from '../src/bundle/format.ts';
import { html } from './dom.ts';
import { duration, withUnit } from './numbers.ts';

export function showGrid(host: HTMLElement, { report }: Bundle): void {
  // Runs kept by an earlier version carry no grid.
  const grid = (report as Partial<Report>).grid;
  if (grid === undefined || grid.feeders.length === 0) return;
  const { cabinets_count: n, coincidence } = grid;
  const crowd = n === 1 ? 'one cabinet does' : `${n} cabinets with swings ${coincidence} do`;
  host.hidden = false;
  host.append(
    html(
      'header',
      {},
      html('h3', {}, 'Point of connection'),
      html('p', {}, `what ${crowd} to the supply: voltage, flicker, groups of the line current`),
    ),
    html('div', { class: 'feeders' }, ...grid.feeders.map((feeder) => feederTable(feeder, report.findings))),
    html(
      'p',
      { class: 'note' },
      'From the power, the short-circuit power and X/R of the supply. Sidebands are those of the varying power alone; harmonics drawn by the rectifiers themselves are not modelled.',
    ),
  );
}

function feederTable(feeder: GridFeeder, findings: readonly Finding[]): HTMLElement {
  const limit = (id: string, unit: string): string => {
    const found = findings.find((finding) => finding.id === id)?.limit ?? null;
    return found === null ? '' : withUnit(found, unit);
  };
  const rows: readonly (readonly [string, string, string])[] = [
    ['mean power, one cabinet', withUnit(feeder.power_mean_W, 'W'), ''],
    ['line current, RMS per phase', withUnit(feeder.current_mean_A, 'A'), ''],
    ['mean voltage drop', fine(feeder.fall_mean_ratio), ''],
    ['largest change within 10 s', fine(feeder.change_max_ratio), limit('voltage-change-max', 'ratio')],
    ['steady change', fine(feeder.change_steady_ratio), limit('voltage-change-steady', 'ratio')],
    ['change kept for 0.5 s', fine(feeder.change_kept_ratio), limit('voltage-change-kept', 'ratio')],
    [pstWords(feeder), flicker(feeder.pst), limit('flicker-pst', '')],
    ['Plt, two hours', flicker(feeder.plt), limit('flicker-plt', '')],
  ];
  return html(
    'div',
    {},
    html(
      'h4',
      {},
      `${feeder.feeder} on ${withUnit(feeder.short_circuit_power_VA, 'VA')}, ${feeder.line_Hz} Hz`,
    ),
    html(
      'table',
      { class: 'bands' },
      html('tr', {}, ...['', 'value', 'limit'].map((head) => html('th', { scope: 'col' }, head))),
      ...rows.map(([name, value, bound]) =>
        html('tr', {}, html('th', { scope: 'row' }, name), html('td', {}, value), html('td', {}, bound)),
      ),
    ),
    groupTable(feeder),
  );
}

/** An estimate says so where its number stands. */
function pstWords({ pst_of, pst_over_s }: GridFeeder): string {
  if (pst_of === 'repeated cycle') return `Pst, estimate: ${duration(pst_over_s ?? 0)} repeated`;
  return pst_of === 'measured' ? 'Pst, worst ten minutes' : 'Pst, ten minutes';
}

function groupTable({ groups, line_Hz }: GridFeeder): HTMLElement | null {
  if (groups === null) return null;
  const fundamental = groups.rows[1]?.subgroup_A ?? Number.NaN;
  const most = Math.max(...groups.rows.map(({ between_A }) => between_A), 1e-12);
  const head = ['order', 'subgroup', 'group', 'interharmonics above', ''];
  return html(
    'table',
    { class: 'bands groups' },
    html(
      'caption',
      {},
      `Groups of the line current, RMS over ${groups.windows_count} windows of ${groups.cycles_count} cycles`,
    ),
    html('tr', {}, ...head.map((word) => html('th', { scope: 'col' }, word))),
    ...groups.rows.map(({ order, subgroup_A, group_A, between_A }) =>
      html(
        'tr',
        {},
        html(
          'th',
          { scope: 'row' },
          order === 0 ? `below ${line_Hz} Hz` : `${order} (${order * line_Hz} Hz)`,
        ),
        html('td', {}, withUnit(subgroup_A, 'A')),
        html('td', {}, withUnit(group_A, 'A')),
        html('td', {}, `${withUnit(between_A, 'A')}, ${fine(between_A / fundamental)}`),
        html(
          'td',
          { class: 'share' },
          html('span', { style: `width:${((100 * between_A) / most).toFixed(2)}%`, 'aria-hidden': 'true' }),
        ),
      ),
    ),
  );
}

/** Small ratios need more digits than a percent with one. */
function fine(ratio: number | null): string {
  if (ratio === null || !Number.isFinite(ratio)) return '–';
  return `${Number((100 * ratio).toPrecision(3))} %`;
}

function flicker(value: number | null): string {
  return value === null ? '–' : value.toFixed(3);
}
