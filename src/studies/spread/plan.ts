/** What a spread draws: tolerances as variables, one row of probabilities and one run for each sample. */
import type { Metrics } from '../../analysis/judge/report.ts';
import { BadInput } from '../../base/problem.ts';
import type { ReadScenario } from '../../scenario/read.ts';
import { listed, nearestOr } from '../../scenario/text/nearest.ts';
import { filesOf, type StudyHead } from '../head.ts';
import { type LimitTitles, limitTitles } from '../limit-titles.ts';
import type { Planned } from '../study.ts';
import type { ReadChanged, Trial } from '../trials/trial.ts';
import { plannedFrom } from '../written/planned.ts';
import type { StudyFile } from '../written/study-file.ts';
import { wholeNumber } from '../written/whole-number.ts';
import { drawnVariables } from './drawn-variables.ts';
import { metricNames } from './metrics.ts';
import { type RareAsked, rareAsked } from './rare/asked.ts';
import { furthestRows, plainPoints, probabilitiesAt } from './rare/normals.ts';
import type { Point } from './rare/subsets.ts';
import { mostSamples, Sampler, type Sampling } from './sampling.ts';
import { drawnAt, outOfRange, type Variable } from './tolerance.ts';

export interface SpreadPlan extends Planned {
  readonly study: StudyFile;
  readonly samples: number;
  readonly seed: number;
  readonly sampling: Sampling;
  /** Ends early when the yield's interval is no wider than twice this; null: never. */
  readonly half_width: number | null;
  /** Runs in all for a small probability of failing, the samples among them; null: it is not asked for. */
  readonly rare: RareAsked | null;
  /** What sensitivity is about: `headroom` (the tightest limit) or a metric. */
  readonly of: string;
  readonly variables: readonly Variable[];
  readonly trials: readonly Trial<'run'>[];
  /** Probability drawn for each variable, by sample. */
  readonly rows: readonly Float64Array[];
  /** Of a search for what fails: the samples as points of standard normals. */
  readonly points: readonly Point[];
  /** Where a drawn figure comes from, as its model says, by path. */
  readonly sources: ReadonlyMap<string, string>;
  readonly inputs: StudyHead['inputs'];
  readonly limit_titles: LimitTitles;
  /** Of the cabinet, which its cautions follow. */
  readonly nominal_V: number;
}

/** What a study draws from, and how each sample is drawn. */
interface Drawing
  extends Pick<SpreadPlan, 'samples' | 'seed' | 'sampling' | 'rare' | 'variables' | 'points'> {
  readonly base: ReadScenario;
  /** Probability drawn for each variable. `k`: from 0; a row depends on no other one. */
  rowAt(k: number): Float64Array;
}

function drawingOf(study: StudyFile, read: ReadChanged): Drawing {
  const rare = rareAsked(study);
  const samples = rare?.samples ?? wholeNumber(study, 'samples', 200, 1, mostSamples);
  const seed = wholeNumber(study, 'seed', 1, 0, 2 ** 31);
  const sampling = study.words.get('sampling') ?? (rare === null ? 'latin-hypercube' : 'plain');
  if (sampling !== 'latin-hypercube' && sampling !== 'plain') {
    refuse('sampling', sampling, listed(['latin-hypercube', 'plain']), 'write one of them');
  }
  const base = read({ scenario: study.scenario, changes: study.changes });
  const variables = drawnVariables(study, base);
  const points = rare === null ? [] : plainPoints(samples, variables.length, seed);
  const sampler = rare === null ? new Sampler(sampling as Sampling, samples, variables.length, seed) : null;
  const rowAt = (k: number): Float64Array => sampler?.row(k) ?? probabilitiesAt(points[k]!);
  return { base, samples, seed, sampling: sampling as Sampling, rare, variables, points, rowAt };
}

function trialAt(study: StudyFile, variables: readonly Variable[], row: Float64Array): Trial<'run'> {
  return {
    kind: 'run',
    scenario: study.scenario,
    changes: [...study.changes, ...variables.flatMap((variable, j) => drawnAt(variable, row[j]!))],
  };
}

/** One sample as the whole study would run it, without drawing the others. `sample`: from 1; throws BadInput. */
export function planSample(study: StudyFile, read: ReadChanged, sample: number): Trial<'run'> {
  const { samples, variables, rowAt } = drawingOf(study, read);
  if (sample > samples)
    refuse('sample', `sample ${sample}`, `a sample from 1 to ${samples}`, 'name one of them');
  const row = rowAt(sample - 1);
  const impossible = outOfRange(variables, [row], { first: sample, of: samples });
  if (impossible.length > 0) throw new BadInput(impossible);
  return trialAt(study, variables, row);
}

/** Reads what is to be sampled and draws it all; throws BadInput. */
export function planSpread(study: StudyFile, read: ReadChanged): SpreadPlan {
  const { base, samples, seed, sampling, rare, variables, points, rowAt } = drawingOf(study, read);
  const rows = Array.from({ length: samples }, (_, k) => rowAt(k));
  // Where what fails is looked for may lie as far out as anything is drawn.
  const impossible = outOfRange(
    variables,
    rare === null ? rows : [...rows, ...furthestRows(variables.length)],
  );
  if (impossible.length > 0) throw new BadInput(impossible);
  const trials = rows.map((row) => trialAt(study, variables, row));
  const width = study.words.get('half_width');
  const of = study.words.get('of') ?? 'headroom';
  if (of !== 'headroom' && !metricNames.includes(of as keyof Metrics)) {
    refuse('of', of, 'headroom or a metric', nearestOr(`one of ${listed(metricNames)}`, of, metricNames));
  }
  return {
    ...plannedFrom(study, read, {}, [base.scenario.inputs]),
    study,
    samples,
    seed,
    sampling,
    half_width: width === undefined ? null : ratioOf('half_width', width),
    of,
    variables,
    rare,
    trials,
    rows,
    points,
    sources: new Map([...base.notes].map(([path, { source, why }]) => [path, `${source}: ${why}`])),
    limit_titles: limitTitles([base.scenario]),
    nominal_V: base.scenario.nominal_V,
    inputs: [
      ...filesOf([study.inputs, base.scenario.inputs]),
      ...study.changes.map((change) => ({ change })),
    ],
  };
}

function ratioOf(key: string, word: string): number {
  const match = /^([\d.]+)\s*(%?)$/.exec(word.trim());
  const value = match === null ? Number.NaN : Number(match[1]) / (match[2] === '%' ? 100 : 1);
  return value > 0 && value < 1
    ? value
    : refuse(key, word, 'a share above 0 and below 1', 'write it like 2 %');
}

function refuse(path: string, found: string, expected: string, mend: string): never {
  throw new BadInput([{ severity: 'error', path, found, expected, mend }]);
}
