/** Problems with values that options stand for, said by the option that was typed. */
import { BadInput, type Problem } from '../../base/problem.ts';
import type { AskedChange } from '../../request/run-request.ts';
import type { Change } from '../../scenario/scenario.ts';

/** Options of `run` by the path that each becomes a change of. */
const options: Readonly<Record<string, string>> = {
  limits: '--limits',
  'load.from': '--from',
  'load.edges': '--edges',
  'load.edge': '--edge',
  'load.loop': '--loop',
  'load.reading.time': '--time',
  'load.reading.power': '--power',
  'load.reading.current': '--current',
  'load.reading.voltage': '--voltage',
  'load.reading.channel': '--channel',
  'load.reading.unit': '--unit',
  'load.reading.where': '--where',
  'load.reading.averaging': '--averaging',
  'load.reading.samples': '--samples',
  'load.reading.sentinel': '--sentinel',
  'load.reading.at': '--at',
  'load.reading.side': '--side',
  'load.reading.copies': '--copies',
  'load.reading.coincidence': '--coincidence',
};

/** Changes with the option that each was typed as: `--set` for those in `set`, their own for the others. */
export function askedChanges(set: readonly Change[], others: readonly Change[]): AskedChange[] {
  return [
    ...set.map((change) => ({ ...change, option: '--set' })),
    ...others.map((change) => ({ ...change, option: options[change.path] ?? '--set' })),
  ];
}

/** Runs `work`; problems at the command line's own words get the name of their option. */
export async function typed<T>(work: () => T | Promise<T>): Promise<T> {
  return renaming(work, (problem) =>
    problem.file === 'command line' ? { ...problem, file: options[problem.path ?? ''] ?? '--load' } : problem,
  );
}

/** Runs `work`; problems with the paths that `option` named are not called those of `--set`. */
export async function saidAs<T>(
  option: string,
  paths: readonly string[],
  work: () => T | Promise<T>,
): Promise<T> {
  return renaming(work, (problem) =>
    problem.file === '--set' && paths.includes(problem.path ?? '') ? { ...problem, file: option } : problem,
  );
}

async function renaming<T>(work: () => T | Promise<T>, by: (problem: Problem) => Problem): Promise<T> {
  try {
    return await work();
  } catch (error) {
    throw error instanceof BadInput ? new BadInput(error.problems.map(by)) : error;
  }
}
