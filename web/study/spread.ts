/** A spread: the yield with its interval, the histogram, the tornado, the worst. */
import {
  metricHead,
  metricRows,
  spreadSentence,
  worstHead,
  worstRows,
} from '../../src/studies/spread/paper.ts';
import type { SpreadReport } from '../../src/studies/spread/report.ts';
import { areClean, statesNotes } from '../../src/studies/trials/states.ts';
import { copied } from '../copied.ts';
import { html } from '../dom.ts';
import { withUnit } from '../numbers.ts';
import { histogramOf, ofWords } from './histogram.ts';
import { answerIn, panel, table } from './parts.ts';
import { tornadoOf } from './tornado.ts';

export function showSpread(answer: HTMLElement, host: HTMLElement, report: SpreadReport): void {
  const { yield_ratio, states, runs, of, noise, sampling, seed, worst, fails } = report;
  answerIn(
    answer,
    withUnit(yield_ratio, 'ratio'),
    areClean(states, runs),
    spreadSentence(report),
    `${sampling}, seed ${seed}. ${statesNotes(states).join(' ')}`.trim(),
  );
  panel(
    host,
    `${capital(ofWords(of).words)} of each sample`,
    of === 'headroom'
      ? 'Samples per bin. A line marks the limit, beyond it a bar is rimmed.'
      : 'Samples per bin.',
    histogramOf(report),
  );
  panel(
    host,
    'What it depends on',
    `Rank correlation of each drawn value with the ${ofWords(of).words}. Chance alone reaches ${noise.toFixed(2)}: bars within that, shaded, are hollow.`,
    tornadoOf(report),
  );
  if (fails.length > 0)
    panel(
      host,
      'Exceeded limits',
      '',
      table(
        ['limit', 'samples'],
        fails.map(({ limit, count }) => [limit, count]),
      ),
    );
  panel(host, 'Metrics', '', table(metricHead, metricRows(report)));
  panel(
    host,
    'Worst samples',
    '',
    table(worstHead, worstRows(report)),
    ...worst.map(({ sample, replay }) => folded(`Command of sample ${sample}`, copied(replay, 'Its run:'))),
  );
}

/** Every drawn value stands in the command of a sample: long, and open when asked for. */
function folded(words: string, command: HTMLElement): HTMLElement {
  return html('details', {}, html('summary', {}, words), command);
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
