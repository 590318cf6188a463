/** The sustained swings of a run as limits see them: whose, over what they are rated for, made by what. */
import type { SustainedSwing } from '../../engine/result.ts';
import { type Case, ratedCurrent } from '../record/case.ts';
import { once } from '../record/once.ts';
import { causeOf, type SwingCause } from './cause.ts';

export interface JudgedSwing {
  readonly owner: string;
  readonly unit: 'V' | 'A' | 'W';
  /** Over rated current or power; of a node, in volts. */
  readonly size: number;
  readonly cause: SwingCause;
  readonly swing: SustainedSwing;
}

/** Swings of the nodes' voltages [V]. */
export function busSwings(c: Case): JudgedSwing[] {
  return swingsOf(c).filter(({ unit }) => unit === 'V');
}

/** Swings of shelves, battery shelves and trays, over what they are rated for. */
export function deviceSwings(c: Case): JudgedSwing[] {
  return swingsOf(c).filter(({ unit }) => unit !== 'V');
}

const swingsOf = once((c: Case): readonly JudgedSwing[] => {
  const rated = ratingsOf(c);
  return c.result.swings.found.flatMap((swing) => {
    const channel = c.result.recording.channels.find(({ id }) => id === swing.channel);
    if (channel === undefined || channel.unit === 'ratio') return [];
    const { owner, unit } = channel;
    const of = unit === 'V' ? 1 : rated.get(owner);
    return of === undefined
      ? []
      : [{ owner, unit, size: swing.swing / of, cause: causeOf(c, swing, owner, unit), swing }];
  });
});

/** Rated current of shelves and battery shelves [A], power limit of trays [W]. */
function ratingsOf({ scenario }: Case): ReadonlyMap<string, number> {
  const { shelves, batteries, trays } = scenario;
  return new Map([
    ...[...shelves, ...batteries].map(({ id, values }) => [id, ratedCurrent(values)] as const),
    ...trays.map(({ id, values }) => [id, values.power_limit_W] as const),
  ]);
}
