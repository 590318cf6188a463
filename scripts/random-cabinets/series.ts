/** A series of random cabinets, run and counted: what came of them, and which are not clean. */
import { auditLimits } from '../../src/engine/status.ts';
import { type CabinetOutcome, type Ending, outcomeOf } from './outcome.ts';
import { type RandomScenario, randomScenario } from './scenario.ts';

export interface SeriesOptions {
  readonly seed: number;
  /** Numbers of the cabinets, `from` to before `to`. */
  readonly from: number;
  readonly to: number;
  /** The first fault of each is a short. */
  readonly shorted: boolean;
}

export interface Tally {
  readonly runs: number;
  readonly counts: Readonly<Record<Ending, number>>;
  /** Runs whose audit closes to `auditLimits.throughput`. */
  readonly closed: number;
  readonly worst_ratio: number;
  readonly worstNumber: number;
  /** A line for each run that is not clean. */
  readonly unclean: readonly string[];
}

/** An audit that is open without the status saying so is as bad as a crash. */
function isClean({ ending, residual_ratio }: CabinetOutcome): boolean {
  return (ending === 'ok' || ending === 'collapsed') && Math.abs(residual_ratio) <= auditLimits.throughput;
}

export function runSeries(options: SeriesOptions, onRun: (done: number) => void = () => {}): Tally {
  const { seed, from, to, shorted } = options;
  const counts = { ok: 0, collapsed: 0, audit_open: 0, non_finite: 0, stopped: 0, crash: 0 };
  const unclean: string[] = [];
  let closed = 0;
  let worst_ratio = 0;
  let worstNumber = from;
  for (let number = from; number < to; number++) {
    const drawn = randomScenario(seed, number, shorted);
    const outcome = outcomeOf(drawn.read.scenario);
    counts[outcome.ending]++;
    const residual = Math.abs(outcome.residual_ratio);
    if (residual <= auditLimits.throughput) closed++;
    if (residual > worst_ratio) {
      worst_ratio = residual;
      worstNumber = number;
    }
    if (!isClean(outcome)) unclean.push(`${number}: ${outcomeWords(outcome)}; ${faultWords(drawn)}`);
    onRun(number - from + 1);
  }
  return { runs: to - from, counts, closed, worst_ratio, worstNumber, unclean };
}

export function outcomeWords({ ending, words, residual_ratio, figures }: CabinetOutcome): string {
  const range = `${figures.lowest_V.toFixed(2)} to ${figures.highest_V.toFixed(2)} V`;
  const said = words === '' ? '' : ` (${words.split('\n')[0]})`;
  return `${ending}${said}, audit open by ${residual_ratio.toExponential(1)} of throughput, bus ${range}`;
}

export function faultWords({ read }: RandomScenario): string {
  return read.scenario.events.map(({ what, unit }) => `${what} ${unit}`).join(', ');
}
