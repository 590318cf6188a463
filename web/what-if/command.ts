/** The command that runs the kept run under changes, ready for a shell. */
import type { RunRequest } from '../../src/request/run-request.ts';
import type { Change } from '../../src/scenario/scenario.ts';
import { lasting, quoted } from '../../src/studies/trials/replay.ts';

export interface Command {
  readonly text: string;
  /** It is whole: of a run with a recording or a measurement named by options it holds the changes alone. */
  readonly whole: boolean;
}

export function commandOf(request: RunRequest, changes: readonly Change[]): Command {
  const { scenario, changes: before, load, measured, waivers, judged_on, doubt } = request;
  const words = (list: readonly Change[]): string[] =>
    lasting(list).flatMap(({ path, value }) => ['--set', `${path}=${value}`]);
  if (load !== null || measured !== null) return { text: words(changes).map(quoted).join(' '), whole: false };
  const text = [
    ...['buswake', 'run', scenario, ...words([...before, ...changes])],
    ...waivers.flatMap(({ limit, reason }) => ['--waive', `${limit}=${reason}`]),
    ...['--on', judged_on, ...(doubt ? ['--doubt'] : [])],
  ];
  return { text: text.map(quoted).join(' '), whole: true };
}
