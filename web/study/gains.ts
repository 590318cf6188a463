/** The page of a gains map: each point by its letter and weight, the chosen one marked, its edges and proof. */
import { digits } from '../../src/base/digits.ts';
import { acceptanceLines, letterWords } from '../../src/studies/gains/accept.ts';
import { gainsEnd } from '../../src/studies/gains/judge.ts';
import { circumstanceLines, gainsSentence } from '../../src/studies/gains/paper.ts';
import type { GainsReport } from '../../src/studies/gains/report.ts';
import { html } from '../dom.ts';
import { gainsMap } from './gains-map.ts';
import { answerIn, panel, table } from './parts.ts';
import type { StudyPage } from './study-page.ts';
import { trialBox } from './trial/box.ts';

export function showGains(page: StudyPage, report: GainsReport): void {
  const { recommended, confirmation, requirements } = report;
  answerIn(
    page,
    recommended === null ? 'no point recommended' : 'point recommended',
    gainsEnd(report) === 'passed' ? 'pass' : 'fail',
    `${gainsSentence(report)}.`,
    `${report.about}.`,
  );
  panel(
    page,
    'Map',
    `${letterWords}. The ring is the recommended point, the frame the box that a supplier may be held to. Choose a tile for its run in time.`,
    gainsMap(page, report),
  );
  panel(
    page,
    'Acceptable is',
    'criteria of every point of the map',
    html('ul', {}, ...acceptanceLines(report.acceptance).map((line) => html('li', {}, line))),
  );
  if (report.circumstances > 0)
    panel(
      page,
      'In every circumstance',
      `An acceptable point is so in all ${report.circumstances}; the worst of each criterion at the point recommended.`,
      html('ul', {}, ...circumstanceLines(report).map((line) => html('li', {}, line))),
    );
  if (recommended !== null) {
    panel(
      page,
      'Distance to the edge',
      'last acceptable value along each axis, the other held',
      table(
        page,
        ['', 'side', 'value', 'relative to the chosen'],
        recommended.edges.map((edge) => [
          edge.path,
          edge.side,
          `${edge.text}${edge.beyond === null ? ', where the map ends' : `; ${edge.beyond} is not`}`,
          edge.factor === null ? '–' : `× ${digits(edge.factor)}`,
        ]),
      ),
    );
  }
  if (confirmation !== null) {
    panel(
      page,
      'Time-domain check',
      'the scenario at the chosen point, with limits, quantum, dead band and modes',
      html('p', {}, page.words.text(confirmation.summary)),
      trialBox(page, {
        name: 'the recommended point',
        trial: confirmation.trial,
        letter: confirmation.letter,
      }),
    );
  }
  panel(
    page,
    'What a supplier must meet',
    'and how it is tested',
    table(
      page,
      ['parameter', 'requirement', 'why', 'test'],
      requirements.map(({ path, text, why, test }) => [path, text, why, test]),
    ),
  );
}
