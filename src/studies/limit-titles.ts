import type { Scenario } from '../scenario/scenario.ts';

/** Titles of limits by their ids: a report names limits by id, who reads it wants them in words. */
export type LimitTitles = Readonly<Record<string, string>>;

/** Of all limits that some of these scenarios are judged by. */
export function limitTitles(scenarios: readonly Pick<Scenario, 'limits'>[]): LimitTitles {
  return Object.fromEntries(scenarios.flatMap(({ limits }) => limits.map(({ id, title }) => [id, title])));
}
