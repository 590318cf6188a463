/** A spread: the yield with its interval, the histogram, the tornado, the worst. */
import { isUndecided } from '../../src/studies/spread/judge.ts';
import { metricHead, spreadSentence, worstHead, worstRows } from '../../src/studies/spread/paper.ts';
import { rareSentence, regionHead, regionRows } from '../../src/studies/spread/rare/words.ts';
import type { SpreadReport } from '../../src/studies/spread/report.ts';
import { areClean, statesNotes } from '../../src/studies/trials/states.ts';
import { withUnit } from '../numbers.ts';
import { ofWords } from './histogram.ts';
import { answerIn, panel, table } from './parts.ts';
import { askedSample, histogramWithSamples } from './samples.ts';
import type { StudyPage } from './study-page.ts';
import { tornadoOf } from './tornado.ts';
import { foldedTrial } from './trial/box.ts';

export function showSpread(page: StudyPage, report: SpreadReport): void {
  const { yield_ratio, states, runs, of, noise, sampling, seed, worst, fails, rare } = report;
  answerIn(
    page,
    isUndecided(report) ? 'No yield' : withUnit(yield_ratio, 'ratio'),
    areClean(states, runs) ? 'pass' : 'fail',
    spreadSentence(report),
    `${sampling}, seed ${seed}. ${statesNotes(states).join(' ')}`.trim(),
  );
  if (rare !== undefined)
    panel(page, 'How seldom it fails', rareSentence(rare), table(page, regionHead, regionRows(rare)));
  panel(
    page,
    `${capital(ofWords(of).words)} of each sample`,
    `Samples per bin${of === 'headroom' ? '; a line marks the limit, beyond it a bar is rimmed' : ''}. Choose a bar for its samples.`,
    histogramWithSamples(page, report),
  );
  panel(
    page,
    'What it depends on',
    `Rank correlation of each drawn value with the ${ofWords(of).words}. Chance alone reaches ${noise.toFixed(2)}: bars within that, shaded, are hollow.`,
    tornadoOf(report),
  );
  if (fails.length > 0)
    panel(
      page,
      'Exceeded limits',
      '',
      table(
        page,
        ['limit', 'samples'],
        fails.map(({ limit, count }) => [limit, count]),
      ),
    );
  panel(page, 'Metrics', '', metricTable(page, report));
  panel(
    page,
    'Worst samples',
    '',
    table(page, worstHead, worstRows(report)),
    ...worst.map(({ sample }) => foldedTrial(page, askedSample(report, sample))),
  );
}

function metricTable(page: StudyPage, { metrics }: SpreadReport): HTMLElement {
  return table(
    page,
    metricHead,
    metrics.map(({ name, min, p5, p50, p95, max }) => {
      const { words, unit } = ofWords(name);
      return [words, ...[min, p5, p50, p95, max].map((value) => withUnit(value, unit))];
    }),
  );
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
