/** Every command: what it does, in the order of the help, and where it is: only what is asked for is loaded. */
import type { Command } from 'commander';

export interface CommandEntry {
  /** One line of the help. */
  readonly does: string;
  /** It runs one scenario, on a thread of its own. */
  readonly runsApart?: true;
  readonly load: () => Promise<() => Command>;
}

export const commands: Readonly<Record<string, CommandEntry>> = {
  new: {
    does: 'draft a cabinet from a few answers: commented files that check clean and run',
    load: () => import('./commands/new.ts').then(({ newCommand }) => newCommand),
  },
  run: {
    does: 'simulate a scenario and judge it by its limits',
    runsApart: true,
    load: () => import('./commands/run.ts').then(({ runCommand }) => runCommand),
  },
  check: {
    does: 'read a scenario and every file it names, say what it would run; runs nothing',
    load: () => import('./commands/check.ts').then(({ checkCommand }) => checkCommand),
  },
  explain: {
    does: 'say what a key, a kind of event or a limit means, and what it may be',
    load: () => import('./commands/explain.ts').then(({ explainCommand }) => explainCommand),
  },
  trace: {
    does: 'read a recorded load, print its quality statement, write a cleaned one',
    load: () => import('./commands/trace.ts').then(({ traceCommand }) => traceCommand),
  },
  review: {
    does: 'answer a specification line by line from kept runs: met, not met or open, by how much and where',
    load: () => import('./commands/review.ts').then(({ reviewCommand }) => reviewCommand),
  },
  view: {
    does: 'make the page on a kept run or study: one HTML file that opens offline in any browser',
    load: () => import('./commands/view.ts').then(({ viewCommand }) => viewCommand),
  },
  verify: {
    does: 'run a kept run again from what it holds and say, bit for bit, what differs',
    runsApart: true,
    load: () => import('./commands/verify.ts').then(({ verifyCommand }) => verifyCommand),
  },
  export: {
    does: 'write what a kept run or study holds as tables, CSV or Parquet, numbers in SI',
    load: () => import('./commands/export.ts').then(({ exportCommand }) => exportCommand),
  },
  size: {
    does: 'find the smallest design that passes every limit, and what binds',
    load: () => import('./commands/size.ts').then(({ sizeCommand }) => sizeCommand),
  },
  designs: {
    does: 'find the designs that pass and that none beats in cost, mass, losses or headroom, with bills of parts',
    load: () => import('./commands/designs.ts').then(({ designsCommand }) => designsCommand),
  },
  rating: {
    does: 'find the largest load, or any scaled number, that passes',
    load: () => import('./commands/rating.ts').then(({ ratingCommand }) => ratingCommand),
  },
  matrix: {
    does: 'run faults × corners × redundancy, one verdict each',
    load: () => import('./commands/matrix.ts').then(({ matrixCommand }) => matrixCommand),
  },
  spread: {
    does: 'sample tolerances: the yield, what it depends on, the worst sample',
    load: () => import('./commands/spread.ts').then(({ spreadCommand }) => spreadCommand),
  },
  duty: {
    does: 'follow heat, charge and life through hours to years, and judge them',
    load: () => import('./commands/duty.ts').then(({ dutyCommand }) => dutyCommand),
  },
  compare: {
    does: 'show what changed between two kept runs: inputs, metrics, findings',
    load: () => import('./commands/compare.ts').then(({ compareCommand }) => compareCommand),
  },
  gains: {
    does: 'map two gains, periods or latencies: the stable region and a recommended point',
    load: () => import('./commands/gains.ts').then(({ gainsCommand }) => gainsCommand),
  },
  response: {
    does: 'frequency responses, bus impedance, loop gains, modes and their owners',
    load: () => import('./commands/response.ts').then(({ responseCommand }) => responseCommand),
  },
  embed: {
    does: 'write the laws of share, smoothing, charge and sampled voltage loops as C, with gains and test vectors of a scenario',
    load: () => import('./commands/embed.ts').then(({ embedCommand }) => embedCommand),
  },
  fit: {
    does: 'adjust named parameters inside their ranges to a measurement, with confidence',
    load: () => import('./commands/fit.ts').then(({ fitCommand }) => fitCommand),
  },
};

export const commandNames: readonly string[] = Object.keys(commands);
