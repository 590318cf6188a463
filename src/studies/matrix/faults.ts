/**
 * One fault of each kind of event that there is. What a kind needs to be a fault worth looking at (an amount, how
 * long, what must happen with it) stands in one table, which the compiler wants whole: a kind that is added to the
 * tool is added here.
 */
import { eventKinds, type OccurrenceKind, occurrences } from '../../scenario/occurrences.ts';
import type { ReadScenario } from '../../scenario/read.ts';
import type { StudyFile, Variant } from '../written/study-file.ts';

/** How a kind of event is played in a matrix. Amounts are assumed: clearly felt, seen in practice. */
interface FaultPlayed {
  /** Amount and duration as written, ` to 70 % for 0.5 s`. */
  readonly words?: string;
  /** Why that much, where it is not plain. */
  readonly why?: string;
  /** The units it is played on; one from the middle of their row, and all together, otherwise. */
  readonly units?: readonly string[];
  /** Happens to the same unit later: the way back. */
  readonly back?: OccurrenceKind;
  /** Happens to the same unit first, and this one is the way back. */
  readonly after?: OccurrenceKind;
  /** Without AC it would not be felt: AC goes at the same time and comes back. */
  readonly withoutAc?: readonly string[];
  /** Nothing of the cabinet stays away: the normal column holds. */
  readonly passes?: true;
  /** No fault of its own, but the way back from another. */
  readonly isWayBack?: true;
}

const played: Readonly<Record<OccurrenceKind, FaultPlayed>> = {
  'shelf-trip': {},
  'shelf-join': { after: 'shelf-trip' },
  'module-out': {},
  'set-point-shift': {
    words: 'by 0.5 %',
    why: 'from one end of a usual accuracy of ±0.25 % to the other, at once; over a droop of 1 % of the set point at full load the shelf takes nearly half of its rating more until the share has trimmed it',
  },
  'sensor-shift': {
    words: 'by 10 %',
    why: 'five times a usual gain error: a sensor that fails, not one that drifts; the share follows it and loads the shelf less',
  },
  'share-out': {},
  'reverse-feed': { words: 'to 50 A', why: 'small enough for its fuse to carry' },
  'coolant-loss': { words: 'to 70 % over 1 s' },
  'tray-out': {},
  'tray-stuck': { words: 'to -20 kW', why: 'full power into the tray, the worst that it can do' },
  'charge-shift': { words: 'by 5 %' },
  'bank-out': {},
  'bank-short': {},
  'battery-fail': { withoutAc: ['all'] },
  'battery-late': {
    words: 'by 20 ms',
    why: 'as long as a usual hold-up of the rectifiers',
    withoutAc: ['all'],
  },
  'bar-out': {},
  'joint-aged': { words: 'to 130 µΩ', why: 'one of its joints at about 100 µΩ, twenty times a good one' },
  'ac-loss': { back: 'ac-return', passes: true },
  'ac-return': { isWayBack: true },
  'ac-sag': { words: 'to 70 % for 0.5 s', passes: true },
  'ac-swell': { words: 'to 110 % for 0.5 s', passes: true },
  'phase-loss': {},
  'signal-lost': { units: ['share', 'smoothing', 'ac'], withoutAc: ['ac'] },
  'signal-frozen': { units: ['share', 'smoothing'] },
  'signal-late': { words: 'by 1 ms', why: 'three times the usual latency in all', units: ['smoothing'] },
  'signal-jitter': { words: 'by 50 ms', units: ['share'] },
  'signal-scaled': { words: 'to 80 %', units: ['smoothing'] },
  'signal-stuck': { words: 'to 0', units: ['share'] },
  'sled-short': { words: 'to 2 mΩ for 1 ms' },
  'sled-off': { back: 'sled-on', passes: true },
  'sled-on': { isWayBack: true },
  brake: { words: 'to 50 % for 1 s', passes: true },
};

/** When each happens, on one unit of each kind from the middle of its row or on each, and when it comes back. */
export type EveryFault = Pick<NonNullable<StudyFile['everyFault']>, 'at' | 'units' | 'back'>;

export function everyFault(
  read: Pick<ReadScenario, 'eventUnits'>,
  { at, units, back }: EveryFault,
): readonly Variant[] {
  return faultKinds.flatMap((kind) => {
    const felt = faultUnits(kind, read);
    const one = played[kind].units === undefined ? chooseOne(felt) : felt;
    const chosen = units === 'each' ? read.eventUnits[kind] : one;
    return chosen.map((unit) => faultOn(kind, unit, { at, back }));
  });
}

/** Every kind of event that is a fault of its own, not the way back from another. */
export const faultKinds: readonly OccurrenceKind[] = eventKinds.filter(
  (kind) => played[kind].isWayBack !== true,
);

/** The units of a cabinet that a fault may strike; of signals those on which it is felt. */
export function faultUnits(
  kind: OccurrenceKind,
  { eventUnits }: Pick<ReadScenario, 'eventUnits'>,
): readonly string[] {
  const able = eventUnits[kind];
  return played[kind].units?.filter((unit) => able.includes(unit)) ?? able;
}

/** A kind of fault on one unit. */
export function faultOn(
  kind: OccurrenceKind,
  unit: string,
  { at, back }: Pick<EveryFault, 'at' | 'back'>,
): Variant {
  return fault(kind, unit, played[kind], at, back);
}

function fault(kind: OccurrenceKind, unit: string, how: FaultPlayed, at: string, back: string): Variant {
  const words = how.words === undefined ? '' : ` ${how.words}`;
  const events =
    how.after === undefined
      ? [`${kind} ${unit}${words} at ${at}`]
      : [`${how.after} ${unit} at ${at}`, `${kind} ${unit}${words} at ${back}`];
  if (how.back !== undefined) events.push(`${how.back} ${unit} at ${back}`);
  const dark = how.withoutAc?.some((name) => name === unit || name === 'all') === true;
  if (dark) events.push(`ac-loss all at ${at}`, `ac-return all at ${back}`);
  return {
    about: `${occurrences[kind].means}${how.why === undefined ? '' : ` (${how.why})`}${dark ? '; AC goes at the same time' : ''}${how.back === undefined && !dark ? '' : `; back at ${back}`}`,
    name: `${kind} ${unit}${words}${dark ? ', AC lost' : ''}`,
    changes: [
      ...events.map((value) => ({ path: 'events.add', value })),
      // What stays away is an outage of the cabinet; what passes or comes back is none.
      ...(how.passes === true ? [] : [{ path: 'outage', value: 'yes' }]),
    ],
  };
}

/** The unit in the middle of its row; with `all` among them, one alone and all together. */
function chooseOne(units: readonly string[]): readonly string[] {
  const single = units.filter((unit) => unit !== 'all');
  const middle = single[Math.floor((single.length - 1) / 2)];
  return [...(middle === undefined ? [] : [middle]), ...(units.includes('all') ? ['all'] : [])];
}
