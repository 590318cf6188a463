/** What a spread draws: tolerances as variables, one row of probabilities and one run for each sample. */
import type { Metrics } from '../../analysis/judge/report.ts';
import { BadInput } from '../../base/problem.ts';
import { listed, nearestOr } from '../../scenario/text/nearest.ts';
import { filesOf, type StudyHead } from '../head.ts';
import { type LimitTitles, limitTitles } from '../limit-titles.ts';
import type { Planned } from '../study.ts';
import type { ReadChanged, Trial } from '../trials/trial.ts';
import { overlap, refuseOverlaps } from '../written/overlap.ts';
import { plannedFrom } from '../written/planned.ts';
import type { StudyFile } from '../written/study-file.ts';
import { metricNames } from './metrics.ts';
import { modelTolerances } from './model-tolerances.ts';
import { mostSamples, Sampler, type Sampling } from './sampling.ts';
import { drawnAt, outOfRange, type Variable, variablesOf } from './tolerance.ts';

export interface SpreadPlan extends Planned {
  readonly study: StudyFile;
  readonly samples: number;
  readonly seed: number;
  readonly sampling: Sampling;
  /** Ends early when the yield's interval is no wider than twice this; null: never. */
  readonly half_width: number | null;
  /** What sensitivity is about: `headroom` (the tightest limit) or a metric. */
  readonly of: string;
  readonly variables: readonly Variable[];
  readonly trials: readonly Trial<'run'>[];
  /** Probability drawn for each variable, by sample. */
  readonly rows: readonly Float64Array[];
  /** Where a drawn figure comes from, as its model says, by path. */
  readonly sources: ReadonlyMap<string, string>;
  readonly inputs: StudyHead['inputs'];
  readonly limit_titles: LimitTitles;
}

/** Reads what is to be sampled and draws it all; throws BadInput. */
export function planSpread(study: StudyFile, read: ReadChanged): SpreadPlan {
  const samples = wordNumber(study, 'samples', 200, 1, mostSamples);
  const seed = wordNumber(study, 'seed', 1, 0, 2 ** 31);
  const sampling = study.words.get('sampling') ?? 'latin-hypercube';
  if (sampling !== 'latin-hypercube' && sampling !== 'plain') {
    refuse('sampling', sampling, listed(['latin-hypercube', 'plain']), 'write one of them');
  }
  const base = read({ scenario: study.scenario, changes: study.changes });
  const unknown = (path: string): never => {
    const mend = nearestOr('the command check --paths lists them all', path, base.paths);
    return refuse(path, `path ${path}`, 'a path of the scenario that is a number', mend);
  };
  const own = study.tolerances.map(([path]) => path);
  refuseOverlaps(own, base.cells, '--tolerance');
  const isOwn = (path: string): boolean => own.some((other) => overlap(other, path, base.cells));
  // Who names nothing means what the models say; who names some means these, unless models are asked for beside.
  const models = study.words.get('models') ?? (study.tolerances.length === 0 ? 'yes' : 'no');
  const ofModels = models === 'yes' ? modelTolerances(base) : [];
  const written = [...study.tolerances, ...ofModels.filter(([path]) => !isOwn(path))];
  if (written.length === 0) {
    refuse(
      'tolerances',
      'nothing to sample',
      'at least one tolerance',
      'give for example --tolerance "trays.esr=normal by 10 %"',
    );
  }
  const variables = variablesOf(written, base.cells, base.scenario.tick_s, unknown);
  const sampler = new Sampler(sampling as Sampling, samples, variables.length, seed);
  const rows = Array.from({ length: samples }, (_, k) => sampler.row(k));
  const impossible = outOfRange(variables, rows);
  if (impossible.length > 0) throw new BadInput(impossible);
  const trials = rows.map(
    (row): Trial<'run'> => ({
      kind: 'run',
      scenario: study.scenario,
      changes: [...study.changes, ...variables.flatMap((variable, j) => drawnAt(variable, row[j]!))],
    }),
  );
  const width = study.words.get('half_width');
  const of = study.words.get('of') ?? 'headroom';
  if (of !== 'headroom' && !metricNames.includes(of as keyof Metrics)) {
    refuse('of', of, 'headroom or a metric', nearestOr(`one of ${listed(metricNames)}`, of, metricNames));
  }
  return {
    ...plannedFrom(study, read),
    study,
    samples,
    seed,
    sampling: sampling as Sampling,
    half_width: width === undefined ? null : ratioOf('half_width', width),
    of,
    variables,
    trials,
    rows,
    sources: new Map([...base.notes].map(([path, { source, why }]) => [path, `${source}: ${why}`])),
    limit_titles: limitTitles([base.scenario]),
    inputs: [
      ...filesOf([study.inputs, base.scenario.inputs]),
      ...study.changes.map((change) => ({ change })),
    ],
  };
}

function wordNumber(study: StudyFile, key: string, fallback: number, least: number, most: number): number {
  const word = study.words.get(key);
  if (word === undefined) return fallback;
  const value = /^\d+$/.test(word) ? Number(word) : Number.NaN;
  if (value >= least && value <= most) return value;
  return refuse(
    key,
    `${word} ${key}`,
    `a whole number from ${least} to ${most}`,
    `write ${key}: ${fallback}, or --${key} ${fallback} on the command line`,
  );
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
