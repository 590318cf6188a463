/** One spoilt scenario read, where it is accepted run for a moment, and what is wrong with the way it went, if anything. */
import { BadInput } from '../../src/base/problem.ts';
import { run } from '../../src/run.ts';
import { type ReadScenario, readScenario } from '../../src/scenario/read.ts';
import { type Timed, type Tried, timed } from '../series/tried.ts';
import { readingOf, type Spoilt } from './spoilt.ts';

/**
 * How an accepted scenario is run: longer than an edge and a turn of every task, and from a settled start, for rounds of
 * a load as long as an hour are played until they repeat, as asked.
 */
const moment = [
  { path: 'duration', value: '20 ms' },
  { path: 'start', value: 'settled' },
];

export type Ending = 'read' | 'ran' | 'refused';

export function triedScenario(spoilt: Spoilt, runs: boolean): Timed<Ending> {
  const whole = timed(() => read(spoilt, false));
  if (!runs || whole.ending !== 'read') return whole;
  return timed(() => read(spoilt, true));
}

function read(spoilt: Spoilt, runs: boolean): Tried<Ending> {
  try {
    const accepted = readScenario(spoilt.scenario, readingOf(spoilt, runs ? moment : []));
    return runs ? ran(accepted) : { ending: 'read', why: '' };
  } catch (error) {
    return refusal(error, spoilt);
  }
}

/** A run that ends in any named status is right; numbers that are not finite under a verdict are not. */
function ran({ scenario }: ReadScenario): Tried<Ending> {
  if (scenario.load.kind === 'recorded') return { ending: 'read', why: '' };
  const { report } = run(scenario, null);
  const finite = report.findings.every(({ value }) => value === null || Number.isFinite(value));
  const passed = report.verdict === 'pass';
  return passed && !finite
    ? { ending: 'wrong', why: 'a pass over numbers that are not finite' }
    : { ending: 'ran', why: '' };
}

/** A refusal names what was found, what was expected, how to mend it, and where. */
function refusal(error: unknown, { file }: Spoilt): Tried<Ending> {
  if (!(error instanceof BadInput))
    return { ending: 'wrong', why: error instanceof Error ? (error.stack ?? error.message) : String(error) };
  const { problems } = error;
  if (problems.length === 0) return { ending: 'wrong', why: 'refused without a problem' };
  const mute = problems.find(({ found, expected, mend }) => [found, expected, mend].includes(''));
  if (mute !== undefined) return { ending: 'wrong', why: `a problem without words: ${JSON.stringify(mute)}` };
  const placed = problems.some(
    (one) => one.file !== undefined || one.path !== undefined || one.at_s !== undefined,
  );
  if (!placed && file !== null) return { ending: 'wrong', why: `refused without a place: ${error.message}` };
  return { ending: 'refused', why: problems[0]!.found };
}
