/** How much of what a limit allows is used, as a bar: the mark is the limit, the gap before it the headroom. */
import type { Finding } from '../../src/analysis/judge/report.ts';
import { html } from '../dom.ts';
import { isJudged } from '../ranked.ts';

/** The limit stands at this part of the track, so that what lies beyond it has room [%]. */
const limit_percent = 80;
const most_ratio = 1.25;
/** Nothing used is a line all the same. */
const least_ratio = 0.012;

export function allowanceBar(finding: Finding): HTMLElement {
  const ratio = finding.headroom_ratio;
  const track = html('span', { class: 'track', 'aria-hidden': 'true' });
  if (isJudged(finding) && ratio !== null) {
    const used = Math.min(most_ratio, Math.max(least_ratio, 1 - ratio));
    track.append(html('span', { class: 'used', style: `width:${limit_percent * used}%` }));
  }
  if (finding.verdict !== 'not_applicable') track.append(html('span', { class: 'limit-mark' }));
  return track;
}
