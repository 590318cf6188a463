/** The histogram of a spread; a bar that is chosen lists its samples, and a sample its run. */
import type { SpreadReport } from '../../src/studies/spread/report.ts';
import { sampleTrial } from '../../src/studies/spread/sample-trial.ts';
import { letterWords } from '../../src/studies/trials/states.ts';
import { html } from '../dom.ts';
import { histogramOf } from './histogram.ts';
import type { StudyPage } from './study-page.ts';
import { trialBox } from './trial/box.ts';
import type { AskedTrial } from './trial/runner.ts';

/** Samples of a bar that are listed. */
const listed = 24;

export function histogramWithSamples(page: StudyPage, report: SpreadReport): HTMLElement {
  const detail = html('div', { class: 'detail', hidden: true, 'aria-live': 'polite' });
  const show = (bar: number): void => {
    const samples = samplesIn(report, bar);
    const box = html('div');
    const buttons = samples.slice(0, listed).map((sample) => {
      const button = html('button', { type: 'button' }, String(sample));
      button.addEventListener('click', () => box.replaceChildren(...chosen(page, report, sample)));
      return button;
    });
    const more = samples.length > listed ? `, the first ${listed} of ${samples.length}` : '';
    detail.hidden = false;
    const said = samples.length === 0 ? 'No sample lies in this bar.' : `Samples of this bar${more}: `;
    detail.replaceChildren(html('p', {}, said, ...buttons), box);
  };
  return html('div', {}, histogramOf(report, show), detail);
}

/** As a spread asks for it. `sample`: from 1. */
export function askedSample(report: SpreadReport, sample: number): AskedTrial {
  const letter = report.samples[sample - 1]!.letter;
  return { name: `sample ${sample}`, trial: sampleTrial(report, sample), letter };
}

function chosen(page: StudyPage, report: SpreadReport, sample: number): readonly HTMLElement[] {
  const { letter, binding } = report.samples[sample - 1]!;
  const said = html(
    'p',
    {},
    page.words.text(`Sample ${sample} ${letterWords[letter]}; tightest: ${binding}`),
  );
  return [said, trialBox(page, askedSample(report, sample))];
}

/** Numbers of the samples, from 1, whose value lies in a bar; the last bar holds its upper end too. */
function samplesIn({ histogram: { edges, counts }, samples }: SpreadReport, bar: number): readonly number[] {
  const [from, to] = [edges[bar]!, edges[bar + 1] ?? Number.POSITIVE_INFINITY];
  const isLast = bar === counts.length - 1;
  return samples.flatMap(({ value }, k) =>
    value !== null && value >= from && (value < to || isLast) ? [k + 1] : [],
  );
}
