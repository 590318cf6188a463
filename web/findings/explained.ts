/** What explains a finding: where, when, how often, how sure, what led there, each moment a link to it. */
import type { Finding } from '../../src/analysis/judge/report.ts';
import { momentSaid } from '../../src/analysis/record/chain.ts';
import { html } from '../dom.ts';
import type { Lens } from '../lens.ts';
import { duration, instant, moment, wholePercent, withUnit } from '../numbers.ts';
import type { Place } from '../places.ts';
import { showMoment, showPlace } from './go-to.ts';

export function explained(finding: Finding, place: Place, lens: Lens): readonly HTMLElement[] {
  const { time_s, duration_s, reason, worst_outside, chain, source, unit, id, title } = finding;
  const parts: HTMLElement[] = [
    html('p', {}, html('strong', {}, title), ` · ${factsOf(finding).join(' · ')}`),
  ];
  if (reason !== null) parts.push(html('p', {}, reason));
  if (worst_outside !== null)
    parts.push(
      html('p', {}, `Worst outside: ${withUnit(worst_outside.value, unit)} (${worst_outside.reason}).`),
    );
  if (chain.length > 0) parts.push(html('div', {}, 'What led there:', chainList(chain, place, lens)));
  const go = time_s === null ? 'See where it is drawn' : `See it at ${instant(time_s)}`;
  const see = html('button', { type: 'button', class: 'link' }, go);
  see.addEventListener('click', () => {
    if (time_s !== null) showMoment(lens, time_s, duration_s);
    showPlace(place);
  });
  parts.push(html('p', {}, see), html('p', { class: 'source' }, `Limit ${id}, source: ${source}.`));
  return parts;
}

/** Causal steps in time order; each that names a moment leads to it. */
export function chainList(chain: readonly string[], place: Place, lens: Lens): HTMLElement {
  return html(
    'ol',
    { class: 'chain' },
    ...chain.map((sentence) => {
      const at_s = momentSaid(sentence);
      if (at_s === null) return html('li', {}, sentence);
      const step = html('button', { type: 'button', class: 'link step' }, sentence);
      step.addEventListener('click', () => {
        showMoment(lens, at_s, null);
        showPlace(place);
      });
      return html('li', {}, step);
    }),
  );
}

function factsOf(finding: Finding): readonly string[] {
  const { node, time_s, duration_s, count, doubt_ratio, bracket, column, unit, share_seen_ratio } = finding;
  return [
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
}
