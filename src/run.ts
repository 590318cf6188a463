/**
 * The way of the data, whole: a scenario and its load become a network, the engine runs it, the analysis
 * judges what it showed. Everything else reads files before this or shows results after it.
 */
import { withBracket } from './analysis/judge/bracket.ts';
import { withDoubt } from './analysis/judge/doubt.ts';
import { judge } from './analysis/judge/judge.ts';
import type { Report } from './analysis/judge/report.ts';
import { guardsOf } from './analysis/protection/guards.ts';
import { channelsOf } from './engine/gauge.ts';
import type { WaveformOrder } from './engine/meters/waveforms.ts';
import type { Result } from './engine/result.ts';
import { simulate } from './engine/simulate.ts';
import { variationsOf } from './engine/variations.ts';
import { levelsOf } from './limits/levels.ts';
import { sustainedLengths } from './limits/sustained.ts';
import { look } from './linear/look.ts';
import { type Demand, repeatsEvery_s } from './loads/demand.ts';
import { makeDemand } from './loads/make-demand.ts';
import type { RecordedLoad } from './loads/recorded/recorded-load.ts';
import { CurveKeeper } from './measured/curve/curve-keeper.ts';
import { layOver } from './measured/lay-over.ts';
import type { Measured } from './measured/measurement.ts';
import { pollsOf } from './monitoring/polls.ts';
import { assemble } from './network/network.ts';
import type { Scenario } from './scenario/scenario.ts';

export interface RunOptions {
  /** Run again at two finer steps and with trims nudged, and guard the verdict by how far each finding moved. */
  readonly doubt?: boolean;
  /** Laid over the run: errors by channel and band. */
  readonly measured?: Measured;
  /** Takes rows of chosen channels while the run goes on; of a recording read both ways the smooth reading's. */
  readonly waveforms?: WaveformOrder | undefined;
  onProgress?(fraction: number): void;
  shouldStop?(): boolean;
}

export interface Run {
  readonly report: Report;
  readonly result: Result;
  readonly demand: Demand;
}

/**
 * Runs a scenario, once or, where a recording is to be read both smooth and sharp, twice: the result is then that
 * of the smooth reading, and findings carry the bracket of both. Where one of them fails or collapses, that one
 * is the result.
 */
export function run(scenario: Scenario, recorded: RecordedLoad | null, options: RunOptions = {}): Run {
  const { load } = scenario;
  if (load.kind !== 'recorded' || load.edges !== 'both') return runOnce(scenario, recorded, options);
  const as = (edges: 'smooth' | 'sharp', from: number): Run => {
    const { onProgress, waveforms } = options;
    const half = onProgress && ((fraction: number) => onProgress(from + 0.5 * fraction));
    return runOnce({ ...scenario, load: { ...load, edges } }, recorded, {
      ...options,
      waveforms: edges === 'smooth' ? waveforms : undefined,
      ...(half === undefined ? {} : { onProgress: half }),
    });
  };
  const smooth = as('smooth', 0);
  if (smooth.report.status === 'stopped') return smooth;
  const sharp = as('sharp', 0.5);
  if (sharp.report.status === 'stopped') return sharp;
  // The reading that ends worse is the result; its findings are of another time and make no bracket.
  if (badnessOf(sharp.report) > badnessOf(smooth.report)) return sharp;
  if (badnessOf(smooth.report) > 0) return smooth;
  return { ...smooth, report: withBracket(smooth.report, sharp.report) };
}

/** How a reading ended, in the order in which a verdict takes it: whole, collapsed, or with numbers that failed. */
function badnessOf({ status, collapse }: Report): number {
  if (status === 'non_finite' || status === 'audit_open') return 3;
  // A bus that left its bounds before sleds that went dark and may come back.
  return status !== 'ok' ? 2 : collapse !== null ? 1 : 0;
}

/** Load → demand, scenario → network, network under demand → result, where it rests → modes, all → verdict. */
function runOnce(scenario: Scenario, recorded: RecordedLoad | null, options: RunOptions): Run {
  const demand = makeDemand(scenario, recorded ?? undefined);
  const levels_V = levelsOf(scenario.limits, scenario.nominal_V);
  const sustained_s = sustainedLengths(scenario.limits);
  const { measured, waveforms } = options;
  const streamed = measured?.measurement.columns.map(({ channel }) => channel) ?? [];
  const variations = options.doubt === true ? variationsOf(scenario) : [];
  const progress = sharedProgress(options, [1, ...variations.map(({ refine }) => refine)]);
  const network = assemble(scenario);
  const guards = guardsOf(scenario);
  const polls = pollsOf(scenario, channelsOf(network));
  const keeper = measured === undefined ? null : new CurveKeeper(measured.measurement.columns);
  const listening = [waveforms, guards?.order, polls?.order, keeper?.order].filter(
    (one) => one !== undefined,
  );
  const watched = { levels_V, sustained_s, streamed, waveforms: listening };
  const result = simulate(network, demand, { ...watched, ...progress() });
  const stability = look(scenario, result);
  const report: Report = {
    ...judge(scenario, demand, result, recorded, stability, guards?.protection()),
    ...(keeper &&
      measured && { measured: layOver(measured.measurement, keeper.curves(result.window), measured) }),
    ...(polls && { monitoring: polls.seen(result.window.to_s, repeatsEvery_s(demand, scenario)) }),
  };
  if (variations.length === 0 || result.status === 'stopped') return { report, result, demand };
  const varied = variations.map(({ how, scenario: other, refine }) => {
    const guarding = guardsOf(scenario);
    const order = { levels_V, sustained_s, refine, waveforms: guarding === null ? [] : [guarding.order] };
    const again = simulate(assemble(other), demand, { ...order, ...progress() });
    return { how, report: judge(scenario, demand, again, recorded, stability, guarding?.protection()) };
  });
  return { report: withDoubt(report, varied), result, demand };
}

/** Options of one run after the other: progress goes on from where the last one ended, by what each costs. */
function sharedProgress(
  { onProgress, shouldStop }: RunOptions,
  costs: readonly number[],
): () => Pick<RunOptions, 'onProgress' | 'shouldStop'> {
  const total = costs.reduce((sum, cost) => sum + cost, 0);
  let done = 0;
  let next = 0;
  return () => {
    const from = done;
    const cost = costs[next++]!;
    done += cost;
    return {
      ...(onProgress === undefined
        ? {}
        : { onProgress: (fraction: number) => onProgress((from + cost * fraction) / total) }),
      ...(shouldStop === undefined ? {} : { shouldStop }),
    };
  };
}
