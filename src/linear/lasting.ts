/**
 * How a cabinet stands once events have come to stay: who gives nothing, who carries, what has changed. Whatever passes,
 * or keeps something moving, leaves no point to settle at and is refused with the reason.
 */
import { BadInput } from '../base/problem.ts';
import type { OccurrenceKind } from '../scenario/occurrences.ts';
import type { EventSpec, Scenario } from '../scenario/scenario.ts';
import { asBuilt, type Standing } from './standing.ts';

/** It stays as it came; it stops the shelf; it takes AC or a battery away; or why it leaves nothing at rest. */
type Leaves = 'stays' | 'stops' | 'takes AC' | 'takes a battery' | { readonly why: string };

const passes: Leaves = { why: 'passes, and nothing rests while it lasts' };
const walksIn: Leaves = {
  why: 'begins a walk-in: limits rise until it is over, nothing rests before, and after it the shelf is one that runs',
};
const isDemand: Leaves = { why: 'changes what is demanded: ask at another load' };

const leaves: Readonly<Record<OccurrenceKind, Leaves>> = {
  'shelf-trip': 'stops',
  'shelf-join': walksIn,
  'module-out': 'stays',
  'set-point-shift': 'stays',
  'sensor-shift': 'stays',
  'share-out': 'stays',
  'reverse-feed': { why: 'draws a current from the bus that the linear model does not include' },
  'coolant-loss': 'stays',
  'tray-out': 'stays',
  'tray-stuck': 'stays',
  'charge-shift': 'stays',
  'bank-out': 'stays',
  'bank-short': passes,
  'battery-fail': 'takes a battery',
  'battery-late': passes,
  'bar-out': 'stays',
  'joint-aged': 'stays',
  'ac-loss': 'takes AC',
  'ac-return': walksIn,
  'ac-sag': passes,
  'ac-swell': passes,
  'phase-loss': { why: 'takes part of the modules: ask for module-out' },
  // What the linear model cannot follow of a signal is refused where it is laid upon the scenario (with-signals.ts).
  'signal-lost': 'stays',
  'signal-frozen': 'stays',
  'signal-late': 'stays',
  'signal-jitter': 'stays',
  'signal-scaled': 'stays',
  'signal-stuck': 'stays',
  'sled-short': passes,
  'sled-off': 'stays',
  'sled-on': passes,
  brake: isDemand,
};

/** Why an event of this kind leaves no point to settle at; null where it does leave one. */
export function whyUnsettled(kind: OccurrenceKind): string | null {
  const how = leaves[kind];
  return typeof how === 'string' ? null : how.why;
}

/** Throws BadInput with every event that leaves no point to settle at. */
export function standingAfter(scenario: Scenario, events: readonly EventSpec[]): Standing {
  const of = (how: Leaves): readonly EventSpec[] => events.filter(({ what }) => leaves[what] === how);
  const isDark = of('takes AC').some(({ unit }) => unit === 'all') || isEveryFeeder(scenario, of('takes AC'));
  refuse([
    ...events.flatMap(({ what, unit }) => {
      const why = whyUnsettled(what);
      return why === null ? [] : [`${what} ${unit}: it ${why}`];
    }),
    ...(isDark
      ? []
      : [
          ...of('takes AC').map(
            ({ what, unit }) =>
              `${what} ${unit}: with AC on another feeder only a run shows whether batteries carry; name the shelves with shelf-trip, or ac-loss all`,
          ),
          ...of('takes a battery').map(
            ({ what, unit }) => `${what} ${unit}: it is felt where batteries carry; add ac-loss all`,
          ),
        ]),
  ]);
  const failed = of('takes a battery').map(({ unit }) => unit);
  const stopped = of('stops').map(({ unit }) => unit);
  const ids = scenario.shelves.map(({ id }) => id);
  return {
    ...asBuilt,
    stopped: isDark ? ids : ids.filter((id) => stopped.includes(id)),
    carrying: isDark
      ? scenario.batteries.map(({ id }) => id).filter((id) => !failed.includes(id) && !failed.includes('all'))
      : [],
    isAcLost: isDark,
    events: of('stays'),
  };
}

function isEveryFeeder({ feeders }: Scenario, gone: readonly EventSpec[]): boolean {
  return gone.length > 0 && feeders.every(({ id }) => gone.some(({ unit }) => unit === id));
}

function refuse(found: readonly string[]): void {
  if (found.length === 0) return;
  throw new BadInput(
    found.map((one) => ({
      severity: 'error',
      path: 'state',
      found: one,
      expected: 'what comes to stay and leaves the cabinet at rest',
      mend: 'run it in time, or name another state',
    })),
  );
}
