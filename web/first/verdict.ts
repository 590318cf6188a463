/** The first thing seen: the verdict with what became of the cabinet, what binds, where and when, and its conditions. */
import type { Report } from '../../src/analysis/judge/report.ts';
import type { Bundle } from '../../src/bundle/format.ts';
import { type Binding, bindingOf } from '../binding.ts';
import { html } from '../dom.ts';
import { allowanceBar } from '../findings/bar.ts';
import { chainList } from '../findings/explained.ts';
import { showMoment, showPlace } from '../findings/go-to.ts';
import { marked, marks } from '../findings/marks.ts';
import { headroomOf, readingOf } from '../findings/numbers.ts';
import type { Lens } from '../lens.ts';
import { instant, unbroken, withUnit } from '../numbers.ts';
import { placeOf } from '../places.ts';
import type { Record } from '../record.ts';
import { basisList } from './basis.ts';
import { conditionList } from './conditions.ts';
import { siteOf } from './site.ts';
import { smallCabinet } from './small-cabinet.ts';
import { wordOf } from './word.ts';

export function showVerdict(host: HTMLElement, lens: Lens, record: Record, bundle: Bundle): void {
  const { report } = bundle;
  const binding = bindingOf(bundle);
  host.replaceChildren(
    html(
      'div',
      { class: 'says' },
      wordOf(report, outcomeOf(report, lens)),
      bindingFacts(binding, lens, bundle),
      conditionList(report),
      notJudged(binding),
      html(
        'div',
        { class: 'ground' },
        basisList(report),
        html('a', { class: 'counts', href: '#findings' }, ...countsOf(report)),
      ),
    ),
  );
  if (record.bucketCount > 0 && record.ofKind('bar-current').length > 0)
    host.append(smallCabinet(record, bundle, binding));
}

/** What, how much, where and when: the moment leads to its panel. */
function bindingFacts(binding: Binding, lens: Lens, bundle: Bundle): HTMLElement {
  const { finding, what, time_s } = binding;
  const place = finding === null ? 'panel-bus' : placeOf(finding, bundle.scenario);
  const facts: (readonly [string, string, ...(HTMLElement | string)[]])[] = [
    ['what', finding === null ? 'because' : 'binding limit', unbroken(what)],
  ];
  if (finding !== null)
    facts.push([
      'much',
      'value / limit',
      html('span', {}, readingOf(finding)),
      allowanceBar(finding),
      html('span', { class: 'headroom' }, headroomOf(finding)),
    ]);
  const site = siteOf(binding, bundle);
  if (site !== null) facts.push(['where', 'where', site]);
  if (time_s !== null) {
    const go = html('button', { type: 'button', class: 'link' }, instant(time_s));
    go.addEventListener('click', () => {
      showMoment(lens, time_s, finding?.duration_s ?? null);
      showPlace(place);
    });
    facts.push(['when', 'when', go]);
  }
  return html(
    'dl',
    { class: `binding ${finding?.verdict ?? ''}` },
    ...facts.map(([name, term, ...said]) =>
      html('div', { class: name }, html('dt', {}, term), html('dd', {}, ...said)),
    ),
  );
}

/** Where the quantity that binds was worse, in time that its limit leaves out: a reader sees it in the trace and asks. */
function notJudged({ finding }: Binding): HTMLElement | null {
  if (finding === null || finding.worst_outside === null) return null;
  const { value, time_s, reason } = finding.worst_outside;
  const moment = time_s === null ? '' : ` at ${instant(time_s)}`;
  return html(
    'div',
    { class: 'conditions' },
    html('span', { class: 'term' }, 'not judged'),
    html('span', {}, `this limit's worst, ${withUnit(value, finding.unit)}${moment}: ${reason}`),
  );
}

/** What became of the cabinet; how it came to it is folded away, each step a link. */
function outcomeOf({ outcome, collapse, status, failure }: Report, lens: Lens): HTMLElement {
  // A collapse is what decides: it stands below in full.
  const because = collapse === null ? outcome.because : 'how it came to it';
  const line = [html('strong', {}, outcome.kind), `: ${because}`];
  if (failure !== null && collapse === null) line.push(`; status ${status}: ${failure}`);
  const steps = outcome.chain;
  const said =
    steps.length === 0
      ? html('p', {}, ...line)
      : html('details', {}, html('summary', {}, ...line), chainList(steps, 'panel-bus', lens));
  return html('div', { class: 'outcome' }, html('span', { class: 'term' }, 'outcome'), said);
}

function countsOf({ findings }: Report): readonly HTMLElement[] {
  return marked.flatMap((kind) => {
    const count = findings.filter(({ verdict }) => verdict === kind).length;
    const [glyph, word] = marks[kind];
    return count === 0 ? [] : [html('span', { class: `count ${kind}` }, `${glyph} ${count} ${word}`)];
  });
}
