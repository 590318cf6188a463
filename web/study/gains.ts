/** The page of a gains map: each point by its letter and weight, the chosen one marked, its edges and proof. */
import { letterWords } from '../../src/studies/gains/accept.ts';
import { gainsEnd } from '../../src/studies/gains/judge.ts';
import { gainsSentence } from '../../src/studies/gains/paper.ts';
import type { GainsReport } from '../../src/studies/gains/report.ts';
import { copied } from '../copied.ts';
import { html } from '../dom.ts';
import { gainsMap } from './gains-map.ts';
import { answerIn, panel, table } from './parts.ts';
import { pathWords } from './path-words.ts';

export function showGains(answer: HTMLElement, parts: HTMLElement, report: GainsReport): void {
  const { recommended, confirmation, requirements } = report;
  answerIn(
    answer,
    recommended === null ? 'no point recommended' : 'point recommended',
    gainsEnd(report) === 'passed',
    `${gainsSentence(report)}.`,
    `${report.about}.`,
  );
  panel(
    parts,
    'Map',
    `${letterWords}. The ring is the recommended point. Choose a tile for the command that runs it.`,
    gainsMap(report),
  );
  if (recommended !== null) {
    panel(
      parts,
      'Distance to the edge',
      'last acceptable value along each axis, the other held',
      table(
        ['', 'side', 'value', 'relative to the chosen'],
        recommended.edges.map((edge) => [
          pathWords(edge.path),
          edge.side,
          `${edge.text}${edge.beyond === null ? ', where the map ends' : `; ${edge.beyond} is not`}`,
          edge.factor === null ? '–' : `× ${edge.factor.toPrecision(3)}`,
        ]),
      ),
    );
  }
  if (confirmation !== null) {
    panel(
      parts,
      'Time-domain check',
      'the scenario at the chosen point, with limits, quantum, dead band and modes',
      html('p', {}, confirmation.summary),
      copied(confirmation.replay, 'To run it again:'),
    );
  }
  panel(
    parts,
    'What a supplier must meet',
    'and how it is tested',
    table(
      ['parameter', 'requirement', 'why', 'test'],
      requirements.map(({ path, text, why, test }) => [pathWords(path), text, why, test]),
    ),
  );
}
