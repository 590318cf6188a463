/** The page of a study: its answer in a sentence, then maps, bars and tables by the kind of study. */
import type { GainsReport } from '../../src/studies/gains/report.ts';
import { type KeptReport, readStudyReport } from '../../src/studies/kept-report.ts';
import type { MatrixReport } from '../../src/studies/matrix/report.ts';
import type { RatingReport } from '../../src/studies/rating/report.ts';
import type { ResponseReport } from '../../src/studies/response/report.ts';
import type { SizeReport } from '../../src/studies/size/report.ts';
import type { SpreadReport } from '../../src/studies/spread/report.ts';
import { makeAddress } from '../address.ts';
import { carried } from '../carried.ts';
import { byId } from '../dom.ts';
import { openPage } from '../opening.ts';
import { startTheme } from '../theme.ts';
import { showGains } from './gains.ts';
import { showCautions, showInputs } from './inputs.ts';
import { showMatrix } from './matrix.ts';
import { showRating } from './rating.ts';
import { showResponse } from './response.ts';
import { showSize } from './size.ts';
import { showSpread } from './spread.ts';

type Study = KeptReport &
  (SizeReport | RatingReport | MatrixReport | SpreadReport | GainsReport | ResponseReport);

async function start(): Promise<void> {
  const study = readStudyReport(await carried('study.json'), 'study.json') as Study;
  const title = study.title === '' ? `${study.kind}: ${study.study}` : study.title;
  byId('title').textContent = title;
  byId('about').textContent = study.about;
  document.title = title;
  const parts = byId('parts');
  const answer = byId('answer');
  if (study.kind === 'size') showSize(answer, parts, study as SizeReport);
  else if (study.kind === 'rating') showRating(answer, parts, study as RatingReport);
  else if (study.kind === 'matrix') showMatrix(answer, parts, study as MatrixReport);
  else if (study.kind === 'gains') showGains(answer, parts, study as GainsReport);
  else if (study.kind === 'response') showResponse(answer, parts, study as ResponseReport);
  else showSpread(answer, parts, study as SpreadReport);
  showCautions(parts, 'remarks' in study ? study.remarks : []);
  showInputs(parts, study);
  startTheme(makeAddress(), () => {});
}

openPage(start);
