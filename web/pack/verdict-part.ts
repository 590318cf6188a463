/** The head of the pack: verdict, what became of the cabinet, what binds, the day, every condition and the rest of the basis. */
import type { Finding } from '../../src/analysis/judge/report.ts';
import type { Bundle } from '../../src/bundle/format.ts';
import { bindingOf } from '../binding.ts';
import { html } from '../dom.ts';
import { headroomOf, readingOf } from '../findings/numbers.ts';
import { basisEntries } from '../first/basis.ts';
import { siteOf } from '../first/site.ts';
import { verdictWords } from '../first/word.ts';
import { instant, moment, unbroken } from '../numbers.ts';

export function verdictPart(bundle: Bundle): HTMLElement {
  const { report } = bundle;
  const { outcome, collapse, failure, status } = report;
  const chain = outcome.chain.map((sentence) => html('li', {}, sentence));
  return html(
    'section',
    { class: 'verdict-part' },
    html('p', { class: 'kind' }, 'Buswake review pack'),
    html('h1', {}, report.scenario.title),
    html('p', {}, report.scenario.about),
    html('p', { class: `verdict ${report.verdict}` }, verdictWords[report.verdict]),
    html('p', {}, 'Outcome: ', html('strong', {}, outcome.kind), `: ${outcome.because}`),
    ...[collapse, failure].flatMap((words) => (words === null ? [] : [html('p', {}, `${status}: ${words}`)])),
    ...(chain.length === 0 ? [] : [html('ol', {}, ...chain)]),
    html('p', {}, report.summary),
    html(
      'dl',
      {},
      ...factsOf(bundle).map(([term, said]) =>
        html('div', {}, html('dt', {}, term), html('dd', {}, unbroken(said))),
      ),
    ),
    html('h2', {}, 'What the verdict rests on'),
    basisEntries(report),
  );
}

function factsOf(bundle: Bundle): readonly (readonly [string, string])[] {
  const { report } = bundle;
  const binding = bindingOf(bundle);
  const { finding, what, time_s } = binding;
  const { from, to } = report.window_s;
  return [
    [finding === null ? 'because' : 'binding limit', what],
    ['value / limit', finding === null ? '' : saidOf(finding)],
    ['where', siteOf(binding, bundle) ?? ''],
    ['when', time_s === null ? '' : instant(time_s)],
    ['judged on', report.judged_on ?? 'day not stated'],
    ['judged window', `${moment(from, 1)} to ${moment(to, 1)}`],
    ['made with', `Buswake ${report.tool_version}, seed ${report.seed}`],
  ].filter((fact): fact is [string, string] => fact[1] !== '');
}

function saidOf(finding: Finding): string {
  return [readingOf(finding), headroomOf(finding)].filter((words) => words !== '').join(', ');
}
