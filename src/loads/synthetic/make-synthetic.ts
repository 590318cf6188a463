import { formatQuantity } from '../../base/quantity.ts';
import type { SyntheticLoad } from '../../scenario/synthetic-loads.ts';
import type { Demand } from '../demand.ts';
import type { LoadContext } from '../load-problem.ts';
import { abortDemand } from './abort.ts';
import { brakeDemand } from './brake.ts';
import { checkpointDemand } from './checkpoint.ts';
import { floorDemand } from './floor.ts';
import { inferenceDemand } from './inference.ts';
import { ladderDemand } from './ladder.ts';
import { skewedDemand } from './skewed.ts';
import { spikesDemand } from './spikes.ts';
import { startUpDemand } from './start-up.ts';
import { polygonError, sineSweepDemand, squareSweepDemand } from './sweep.ts';
import { trainingDemand } from './training.ts';

/** Version of the generators: the same version, values and seed give the same load. */
export const generatorVersion = 1;

/** Families that swing about their mean from the start: slow states settle there. */
const aboutMean: ReadonlySet<string> = new Set([
  'training',
  'inference',
  'spikes',
  'sweep-square',
  'sweep-sine',
]);

/** The demand of a synthetic load, with a sentence that says what it is. */
export function syntheticDemand(load: SyntheticLoad, context: LoadContext): Demand {
  const demand = generate(load, context);
  return { ...demand, settlesOnMean: aboutMean.has(load.kind), remarks: sentences(load, context, demand) };
}

function generate(load: SyntheticLoad, context: LoadContext): Demand {
  switch (load.kind) {
    case 'training':
      return trainingDemand(load, context);
    case 'checkpoint':
      return checkpointDemand(load, context);
    case 'start-up':
      return startUpDemand(load, context);
    case 'abort':
      return abortDemand(load, context);
    case 'inference':
      return inferenceDemand(load, context);
    case 'floor':
      return floorDemand(load, context);
    case 'spikes':
      return spikesDemand(load, context);
    case 'sweep-square':
      return squareSweepDemand(load, context);
    case 'sweep-sine':
      return sineSweepDemand(load, context);
    case 'ladder':
      return ladderDemand(load, context);
    case 'skewed':
      return skewedDemand(load, context);
    case 'brake':
      return brakeDemand(load, context);
    default:
      throw new RangeError(`unknown load ${(load satisfies never as SyntheticLoad).kind}`);
  }
}

function sentences(load: SyntheticLoad, context: LoadContext, demand: Demand): string[] {
  const power = (value: number) => formatQuantity(value, 'power', 5);
  const lines = [
    `Synthetic load ${load.kind}, generator ${generatorVersion}, seed ${context.seed}: mean ${power(demand.mean_W)}, ${power(demand.low_W)} to ${power(demand.peak_W)}, ${formatQuantity(demand.energy_J, 'energy', 6)} in ${context.duration_s} s.`,
    `Every edge lies on a whole tick; times that were drawn or divided are rounded by at most ${formatQuantity(demand.rounding_s, 'time', 3)}.`,
  ];
  if (load.kind === 'sweep-sine') {
    const percent = Number((100 * polygonError(load.pieces_count)).toPrecision(2));
    lines.push(
      `The sine is drawn in ${load.pieces_count} straight pieces, inside it by at most ${percent} % of its amplitude.`,
    );
  }
  return lines;
}
