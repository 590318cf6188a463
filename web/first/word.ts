/** What a page says before its traces are unpacked: of which run it is, and the verdict. */
import type { Report, Verdict } from '../../src/analysis/judge/report.ts';
import { byId, html } from '../dom.ts';

export const verdictWords: Readonly<{ [V in Verdict]: string }> = {
  pass: 'Pass',
  pass_with_conditions: 'Pass with conditions',
  fail: 'Fail',
  inconclusive: 'Inconclusive',
};

/** The verdict's word, with what stands beside it. */
export function wordOf({ verdict }: Report, ...beside: readonly HTMLElement[]): HTMLElement {
  return html(
    'div',
    { class: `word ${verdict}` },
    html('h2', { id: 'verdict-word' }, verdictWords[verdict]),
    ...beside,
  );
}

/** Puts head and word in place, and gives the browser a frame to paint them. */
export function showWord(host: HTMLElement, report: Report): Promise<void> {
  byId('title').textContent = report.scenario.title;
  byId('about').textContent = report.scenario.about;
  document.title = `${report.scenario.title}: ${report.verdict.replaceAll('_', ' ')}`;
  host.replaceChildren(wordOf(report));
  return new Promise((painted) => {
    // A page in the background gets no frame.
    const timer = setTimeout(painted, 50);
    requestAnimationFrame(() => {
      clearTimeout(timer);
      setTimeout(painted);
    });
  });
}
