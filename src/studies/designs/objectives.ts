/** What designs are compared by: figures of their parts, and what their runs show. */
import { BadInput } from '../../base/problem.ts';
import { formatPercent, formatQuantity } from '../../base/quantity.ts';
import { type Figure, figureParameters } from '../../scenario/parameters/figures.ts';
import { listed, nearestOr } from '../../scenario/text/nearest.ts';
import { stepOf } from '../search/alike.ts';

export type Objective = Figure | 'losses' | 'headroom' | 'yield';

export const objectives: readonly Objective[] = [
  ...(Object.keys(figureParameters) as Figure[]),
  'losses',
  'headroom',
  'yield',
];

/** As people read it. */
export const objectiveWords: Readonly<Record<Objective, string>> = {
  cost: 'cost',
  mass: 'mass',
  rack_units: 'rack units',
  losses: 'losses in a year',
  headroom: 'tightest headroom',
  yield: 'yield',
};

/** What the numbers of an objective are called in a table, unit included. */
export const objectiveFields: Readonly<Record<Objective, string>> = {
  cost: 'cost_amount',
  mass: 'mass_kg',
  rack_units: 'rack_units_amount',
  losses: 'losses_J_per_year',
  headroom: 'tightest_headroom_ratio',
  yield: 'yield_ratio',
};

/** A year of 365.25 days [s]. */
const year_s = 31_557_600;

const joulesOfKilowattHour = 3.6e6;

/** Losses of a year in which the mean loss is this [J]. */
export function yearOf(loss_mean_W: number): number {
  return loss_mean_W * year_s;
}

export function isFigure(objective: Objective): objective is Figure {
  return objective in figureParameters;
}

/** Whether more of it is better. */
export function isMore(objective: Objective): boolean {
  return objective === 'headroom' || objective === 'yield';
}

/** A value in words. */
export function objectiveText(objective: Objective, value: number): string {
  switch (objective) {
    case 'cost':
    case 'rack_units':
      return String(Number(value.toPrecision(9)));
    case 'mass':
      return formatQuantity(value, 'mass', 6);
    case 'losses':
      // As many digits as they are compared by.
      return `${Number((value / joulesOfKilowattHour).toPrecision(4))} kWh`;
    case 'headroom':
      return formatPercent(value, 3);
    case 'yield':
      return formatPercent(value, 4);
    default:
      return objective satisfies never;
  }
}

/**
 * A value as it is compared: less is better, and what nobody can tell is alike. Headrooms by their steps, losses to four
 * digits, sums of figures but for their rounding.
 */
export function rankOf(objective: Objective, value: number): number {
  if (!Number.isFinite(value)) return isMore(objective) ? -value : value;
  switch (objective) {
    case 'headroom':
      return -stepOf(value);
    case 'losses':
      return Number(value.toPrecision(4));
    case 'yield':
      return -value;
    default:
      return Number(value.toPrecision(12));
  }
}

/** One or two names, separated by commas. Throws BadInput. */
export function objectivesOf(text: string | undefined): readonly Objective[] {
  const names = (text ?? '')
    .split(',')
    .map((name) => name.trim())
    .filter((name) => name !== '');
  const refuse = (found: string, mend: string): never => {
    const expected = `one or two of ${listed(objectives)}`;
    throw new BadInput([{ severity: 'error', path: 'objectives', found, expected, mend }]);
  };
  const mend = 'write objectives: cost, losses, or --objective cost --objective losses';
  if (names.length === 0) return refuse('nothing to compare designs by', mend);
  if (names.length > 2) return refuse(`${names.length} objectives`, mend);
  if (names[0] === names[1]) return refuse(`${names[0]} twice`, 'leave one of them out');
  return names.map(
    (name) => objectives.find((one) => one === name) ?? refuse(name, nearestOr(mend, name, objectives)),
  );
}
