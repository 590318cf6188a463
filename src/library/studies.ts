/** Studies as the command line carries them out, on threads. */
import { BadInput } from '../base/problem.ts';
import { DiskSource } from '../bundle/disk-source.ts';
import type { Change } from '../scenario/scenario.ts';
import type { Files } from '../scenario/text/desk.ts';
import { studyNamed } from '../shipped/study-named.ts';
import { Bench } from '../studies/bench/bench.ts';
import { mostWorkers } from '../studies/bench/most-workers.ts';
import { Shelf } from '../studies/bench/shelf.ts';
import { duty as dutyStudy } from '../studies/duty/duty.ts';
import { planDuty } from '../studies/duty/plan.ts';
import type { DutyReport } from '../studies/duty/report.ts';
import { matrix as matrixStudy } from '../studies/matrix/matrix.ts';
import { planMatrix } from '../studies/matrix/plan.ts';
import type { MatrixReport } from '../studies/matrix/report.ts';
import { planRating } from '../studies/rating/plan.ts';
import { rating as ratingStudy } from '../studies/rating/rating.ts';
import type { RatingReport } from '../studies/rating/report.ts';
import { planSize } from '../studies/size/plan.ts';
import type { SizeReport } from '../studies/size/report.ts';
import { size as sizeStudy } from '../studies/size/size.ts';
import { planSpread } from '../studies/spread/plan.ts';
import type { SpreadReport } from '../studies/spread/report.ts';
import { spread as spreadStudy } from '../studies/spread/spread.ts';
import type { Planned, Study } from '../studies/study.ts';
import type { ReadChanged } from '../studies/trials/trial.ts';
import type { StudyFile, StudyKind } from '../studies/written/study-file.ts';
import { refuseWrong } from './refuse-wrong.ts';

/** What is asked of a study. */
export interface StudyAsk {
  /** Changes by path, made before those of the study. */
  readonly set?: Readonly<Record<string, string>>;
  /** Threads; all cores by default. No answer depends on it. */
  readonly workers?: number;
  /** Called with trials finished and trials known to be wanted, which may grow. */
  onProgress?(done: number, wanted: number): void;
}

/** What is asked of `size`. */
export interface SizeAsk extends StudyAsk {
  /** What is varied, least first, for a scenario in place of a study: `{ 'trays.count': '6 to 14' }`; one or two. */
  readonly vary?: Readonly<Record<string, string>>;
}

/**
 * The smallest design that passes every limit, what binds it, and what each limit requires.
 * `study`: a study file, one that comes with the package, or a scenario. Throws BadInput.
 */
export async function size(study: string, ask: SizeAsk = {}): Promise<SizeReport> {
  refuseWrong('size', study, ask);
  const vary = Object.entries(ask.vary ?? {});
  return carriedOut(sizeStudy, ask, (read, files) => {
    const written = writtenStudy(study, 'size', ask, files);
    return planSize(vary.length > 0 ? { ...written, vary } : written, read);
  });
}

/** The largest load, or any scaled number, that passes. `study`: as of `size`. Throws BadInput. */
export async function rating(study: string, ask: StudyAsk = {}): Promise<RatingReport> {
  refuseWrong('study', study, ask);
  return carriedOut(ratingStudy, ask, (read, files) =>
    planRating(writtenStudy(study, 'rating', ask, files), read),
  );
}

/** Faults × corners × redundancy, one verdict each. `study`: as of `size`. Throws BadInput. */
export async function matrix(study: string, ask: StudyAsk = {}): Promise<MatrixReport> {
  refuseWrong('study', study, ask);
  return carriedOut(matrixStudy, ask, (read, files) =>
    planMatrix(writtenStudy(study, 'matrix', ask, files), read),
  );
}

/** Heat, charge and life through a calendar of stretches. `study`: a study file, or one that comes with the package. Throws BadInput. */
export async function duty(study: string, ask: StudyAsk = {}): Promise<DutyReport> {
  refuseWrong('study', study, ask);
  return carriedOut(dutyStudy, ask, (read, files) => planDuty(writtenStudy(study, 'duty', ask, files), read));
}

/** Tolerances sampled: the yield, what it depends on, the worst sample. `study`: as of `size`. Throws BadInput. */
export async function spread(study: string, ask: StudyAsk = {}): Promise<SpreadReport> {
  refuseWrong('study', study, ask);
  return carriedOut(spreadStudy, ask, (read, files) =>
    planSpread(writtenStudy(study, 'spread', ask, files), read),
  );
}

function writtenStudy(name: string, kind: StudyKind, { set = {} }: StudyAsk, files: Files): StudyFile {
  const changes = Object.entries(set).map(([path, value]): Change => ({ path, value }));
  return studyNamed(name, kind, changes, files);
}

async function carriedOut<Plan extends Planned, Report>(
  study: Study<Plan, Report>,
  { workers, onProgress }: StudyAsk,
  planned: (read: ReadChanged, files: Files) => Plan,
): Promise<Report> {
  refuseMany(workers);
  const shelf = new Shelf(new DiskSource());
  const plan = planned(
    (of) => shelf.read(of),
    (path) => shelf.text(path),
  );
  const bench = new Bench({
    ...(workers === undefined ? {} : { workers }),
    ...(onProgress === undefined ? {} : { onProgress }),
    typed: shelf.typed,
  });
  try {
    return await study.carryOut(plan, bench.run);
  } finally {
    await bench.close();
  }
}

function refuseMany(workers: number | undefined): void {
  if (workers === undefined || workers <= mostWorkers) return;
  throw new BadInput([
    {
      severity: 'error',
      path: 'workers',
      found: String(workers),
      expected: `at most ${mostWorkers} threads here: more than cores are no quicker`,
      mend: 'leave it out for all cores',
    },
  ]);
}
