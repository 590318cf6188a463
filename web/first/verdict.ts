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
import { instant } from '../numbers.ts';
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
    ['what', finding === null ? 'because' : 'binding limit', what],
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

/** What became of the cabinet; how it came to it is folded away, each step a link. */
function outcomeOf({ outcome, collapse, status, failure }: Report, lens: Lens): HTMLElement {
  // A collapse is what decides: it stands below in full.
  const because = collapse === null ? outcome.because : 'how it came to it';
  const line = [html('strong', {}, outcome.kind), ` ${because}`];
  if (failure !== null && collapse === null) line.push(`; status ${status}: ${failure}`);
  if (outcome.chain.length === 0) return html('p', { class: 'outcome' }, ...line);
  return html(
    'details',
    { class: 'outcome' },
    html('summary', {}, ...line),
    chainList(outcome.chain, 'panel-bus', lens),
  );
}

function countsOf({ findings }: Report): readonly HTMLElement[] {
  return marked.flatMap((kind) => {
    const count = findings.filter(({ verdict }) => verdict === kind).length;
    const [glyph, word] = marks[kind];
    return count === 0 ? [] : [html('span', { class: `count ${kind}` }, `${glyph} ${count} ${word}`)];
  });
}
