/** What came of a trial: its verdict with what conditions it, what binds, then bus, carriers and AC as on a run's own page. */
import type { JudgedRun } from '../../../src/bundle/format.ts';
import type { WholeRun } from '../../../src/studies/bench/run-whole.ts';
import { type Binding, bindingOf } from '../../binding.ts';
import { html } from '../../dom.ts';
import { headroomOf, readingOf } from '../../findings/numbers.ts';
import { basisList } from '../../first/basis.ts';
import { conditionList } from '../../first/conditions.ts';
import { verdictWords } from '../../first/word.ts';
import { type Lens, makeLens } from '../../lens.ts';
import { instant } from '../../numbers.ts';
import { busPanel } from '../../panels/bus.ts';
import { carriersPanel } from '../../panels/carriers.ts';
import { acPanel } from '../../panels/groups.ts';
import { makeRecord } from '../../record.ts';
import { makeRuler } from '../../ruler.ts';
import { addMenu } from '../../taken/menu.ts';
import { allPlots } from '../../taken/plot.ts';
import type { Words } from '../words.ts';

/** The lens of its traces; null where there is nothing to draw. */
export function showOutcome(host: HTMLElement, { outcome, ran }: WholeRun, words: Words): Lens | null {
  // What the run says of itself stands below; a study may say more: that a fault was not felt, that it could not begin.
  const more = outcome.verdict === ran?.report.verdict ? [] : [html('p', {}, words.text(outcome.summary))];
  const verdict = html('h4', {}, verdictWords[outcome.verdict]);
  host.replaceChildren(html('div', { class: `word ${outcome.verdict}` }, verdict, ...more));
  return ran === null ? null : showRan(host, ran);
}

function showRan(host: HTMLElement, ran: JudgedRun): Lens | null {
  const { report, result, scenario } = ran;
  const record = makeRecord(result.recording);
  const lens = makeLens(record.edges_s[0] ?? 0, record.edges_s[record.bucketCount] ?? 0);
  const binding = bindingOf(ran);
  const conditions = conditionList(report);
  host.append(
    bindingFacts(binding, lens),
    ...(conditions === null ? [] : [conditions]),
    html('div', { class: 'ground' }, basisList(report)),
  );
  // A run that broke down at once has nothing to draw.
  if (record.bucketCount === 0) return null;
  const ruler = html('section', { id: 'ruler', 'aria-label': 'time' });
  const traces = html('section', { id: 'traces', 'aria-label': 'traces' });
  host.append(ruler, traces);
  const before = allPlots().length;
  makeRuler(ruler, lens, record, ran);
  busPanel(traces, lens, record, ran);
  carriersPanel(traces, lens, record, ran);
  acPanel(traces, lens, record, ran);
  for (const plot of allPlots().slice(before)) addMenu(plot, lens, scenario.id);
  if (binding.time_s !== null) lens.pin(binding.time_s);
  lens.refresh();
  return lens;
}

/** What, how much, where and when; the moment is a link into the traces. */
function bindingFacts({ finding, what, where, time_s }: Binding, lens: Lens): HTMLElement {
  const facts: (readonly [string, string, HTMLElement | string])[] = [
    ['what', finding === null ? 'because' : 'binding limit', what],
  ];
  if (finding !== null)
    facts.push(['much', 'value / limit', `${readingOf(finding)}, ${headroomOf(finding)}`]);
  if (where !== null) facts.push(['where', 'where', where]);
  if (time_s !== null) {
    const go = html('button', { type: 'button', class: 'link' }, instant(time_s));
    go.addEventListener('click', () => lens.pin(time_s));
    facts.push(['when', 'when', go]);
  }
  return html(
    'dl',
    { class: `binding ${finding?.verdict ?? ''}` },
    ...facts.map(([name, term, said]) =>
      html('div', { class: name }, html('dt', {}, term), html('dd', {}, said)),
    ),
  );
}
