/** The page of a study: its answer in a sentence, then maps, bars and tables by the kind of study. */
import type { DesignsReport } from '../../src/studies/designs/report.ts';
import type { DutyReport } from '../../src/studies/duty/report.ts';
import type { FitDocument } from '../../src/studies/fit/fit-document.ts';
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
import { holdsStudy } from '../engine/kept.ts';
import { openPage } from '../opening.ts';
import { startTheme } from '../theme.ts';
import { showDesigns } from './designs.ts';
import { showDuty } from './duty.ts';
import { showFit } from './fit/fit.ts';
import { showGains } from './gains.ts';
import { showCautions, showInputs } from './inputs.ts';
import { showMatrix } from './matrix.ts';
import { showRating } from './rating.ts';
import { showResponse } from './response.ts';
import { showSize } from './size.ts';
import { showSpread } from './spread.ts';
import type { StudyPage } from './study-page.ts';
import { TrialRunner } from './trial/runner.ts';
import { wordsOf } from './words.ts';

type Study = KeptReport &
  (
    | SizeReport
    | DesignsReport
    | RatingReport
    | MatrixReport
    | SpreadReport
    | DutyReport
    | GainsReport
    | ResponseReport
    | FitDocument
  );

async function start(): Promise<void> {
  const study = readStudyReport(await carried('study.json'), 'study.json') as Study;
  const words = wordsOf('limit_titles' in study ? study.limit_titles : {});
  // Title and about may be its user's: they stand as they were written.
  const title = study.title === '' ? `${study.kind}: ${study.study}` : study.title;
  byId('title').textContent = title;
  byId('about').textContent = study.about;
  document.title = title;
  const runner = holdsStudy() ? new TrialRunner(words) : null;
  const page: StudyPage = { answer: byId('answer'), parts: byId('parts'), words, runner };
  if (study.kind === 'size') showSize(page, study as SizeReport);
  else if (study.kind === 'designs') showDesigns(page, study as DesignsReport);
  else if (study.kind === 'rating') showRating(page, study as RatingReport);
  else if (study.kind === 'matrix') showMatrix(page, study as MatrixReport);
  else if (study.kind === 'duty') showDuty(page, study as DutyReport);
  else if (study.kind === 'gains') showGains(page, study as GainsReport);
  else if (study.kind === 'response') showResponse(page, study as ResponseReport);
  else if (study.kind === 'fit') showFit(page, study as FitDocument & KeptReport);
  else showSpread(page, study as SpreadReport);
  showCautions(page, 'remarks' in study ? study.remarks : []);
  showInputs(page, study);
  startTheme(makeAddress(), () => runner?.refresh());
}

openPage(start);
