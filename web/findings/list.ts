/** Every limit as the share of its allowance that is used: what decides first, the rest folded. */
import type { Bundle } from '../../src/bundle/format.ts';
import { html } from '../dom.ts';
import type { Lens } from '../lens.ts';
import { wholePercent } from '../numbers.ts';
import { placeOf } from '../places.ts';
import { type Ranked, ranked } from '../ranked.ts';
import { explained } from './explained.ts';
import { showMoment } from './go-to.ts';
import { findingRow } from './row.ts';

/** So many limits are shown before the fold; whatever fails or is waived stands before it too. */
const shownFirst = 10;

export function showFindings(host: HTMLElement, lens: Lens, { report, scenario }: Bundle): void {
  const detail = html('div', { class: 'detail', 'aria-live': 'polite', hidden: true });
  const all = ranked(report.findings);
  const open = all.filter(({ finding: { verdict } }) => verdict === 'inconclusive');
  const told = all.filter(({ finding: { verdict } }) => verdict !== 'inconclusive');
  const failed = told.filter(({ finding: { verdict } }) => verdict === 'fail' || verdict === 'waived').length;
  const arising = told.filter(({ finding: { verdict } }) => verdict !== 'not_applicable').length;
  const first = told.slice(0, Math.min(arising, Math.max(shownFirst, failed)));
  const rest = told.slice(first.length);
  const lists = html('div', { role: 'group', 'aria-label': 'limits, the binding one first' });
  const row = (one: Ranked): HTMLElement => {
    const button = findingRow(one);
    const { finding } = one;
    button.addEventListener('click', () => {
      for (const other of lists.querySelectorAll('.finding'))
        other.setAttribute('aria-pressed', String(other === button));
      button.after(detail);
      detail.hidden = false;
      detail.replaceChildren(...explained(finding, placeOf(finding, scenario), lens));
      if (finding.time_s !== null) showMoment(lens, finding.time_s, finding.duration_s);
    });
    return button;
  };
  const fold = (words: string, those: readonly Ranked[]): void => {
    if (those.length === 0) return;
    const summary = html('summary', {}, words);
    lists.append(html('details', { class: 'rest' }, summary, twoColumns(those, row)));
  };
  lists.append(twoColumns(first, row));
  fold(restInWords(rest), rest);
  fold(`${open.length} inconclusive: the load or the window cannot show them, or they were removed`, open);
  host.append(
    html(
      'header',
      {},
      html('h3', {}, 'Limits'),
      html(
        'p',
        {},
        'how much of what each allows is used: the mark is the limit, the gap before it the headroom; numbers are those pinned to the traces',
      ),
    ),
    html('p', { id: 'verdict-summary', class: 'note' }, report.summary),
    lists,
  );
}

/** Two lists that are read one after the other, so that an opened row moves only its own column. */
function twoColumns(those: readonly Ranked[], row: (one: Ranked) => HTMLElement): HTMLElement {
  const half = Math.ceil(those.length / 2);
  const column = (part: readonly Ranked[]): HTMLElement =>
    html('ul', {}, ...part.map((one) => html('li', {}, row(one))));
  return html('div', { class: 'findings' }, column(those.slice(0, half)), column(those.slice(half)));
}

function restInWords(rest: readonly Ranked[]): string {
  const passes = rest.filter(({ finding }) => finding.verdict === 'pass');
  const least = Math.min(...passes.map(({ finding }) => finding.headroom_ratio ?? Number.POSITIVE_INFINITY));
  const room = Number.isFinite(least) ? ` with ${wholePercent(least)} headroom or more` : '';
  const parts = [
    passes.length === 0 ? null : `${passes.length} more pass${room}`,
    passes.length === rest.length ? null : `${rest.length - passes.length} not applicable`,
  ];
  return parts.filter((part) => part !== null).join('; ');
}
