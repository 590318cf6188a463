/** The levers of a study, or the usual ones, and where each can be pulled. */
import type { ReadScenario } from '../../scenario/read.ts';
import type { Change } from '../../scenario/scenario.ts';
import type { ReadChanged } from '../trials/trial.ts';
import type { Situation } from '../written/situations.ts';
import type { StudyFile, Variant } from '../written/study-file.ts';
import type { AxisRow } from './rows.ts';
import { isScaled, scaledLever } from './scaled-lever.ts';

/** A lever, which of the situations can take it, and what it changes where that depends on what is there. */
export type FittingLever = Variant & {
  readonly fits: readonly boolean[];
  /** By row and place; none where it is the same at every candidate. */
  readonly at?: readonly (readonly (readonly Change[])[])[];
};

const usual: readonly Variant[] = [
  { name: 'slower start: edges of 2 s', changes: [{ path: 'load.edge', value: '2 s' }] },
  {
    name: 'another control: a longer smoothing time',
    changes: [{ path: 'firmware.smoothing.time_constant', value: '× 1.2' }],
  },
  {
    name: 'another control: a shorter smoothing time',
    changes: [{ path: 'firmware.smoothing.time_constant', value: '× 0.8' }],
  },
  {
    name: 'another control form: ramps of the source',
    changes: [{ path: 'firmware.smoothing.reference', value: 'source-ramp' }],
  },
  {
    name: 'faster signal: half the period and latency',
    changes: [
      { path: 'firmware.smoothing.period', value: '× 0.5' },
      { path: 'firmware.smoothing.latency', value: '× 0.5' },
    ],
  },
  {
    name: 'more power per tray: a tenth',
    changes: [{ path: 'trays.power_limit', value: '× 1.1' }],
  },
  {
    name: 'cooler coolant: 20 °C',
    changes: [{ path: 'trays.coolant_temperature', value: '20 °C' }],
  },
];

/**
 * The study's levers, or the usual ones, each with the situations that can take it. One of the study's own that
 * fits nowhere is BadInput.
 */
export function leversOf(
  study: StudyFile,
  read: ReadChanged,
  situations: readonly Situation[],
  rows: readonly AxisRow[],
): readonly FittingLever[] {
  const levers = study.levers.length > 0 ? study.levers : usual;
  const { scenario, before } = situations[0]!;
  const cells = read({ scenario, changes: before }).cells;
  /** What is there at every candidate, by row and place; read where a lever asks. */
  let at: readonly (readonly ReadScenario['cells'][])[] | null = null;
  return levers.flatMap((lever) => {
    let why: unknown = null;
    // A slower start is no change of a pulse train: it is pulled where it can be.
    const fits = situations.map((situation) => {
      try {
        const changes = scaledLever(lever.changes, cells);
        read({
          scenario: situation.scenario,
          changes: [...situation.before, ...situation.after, ...changes],
        });
        return true;
      } catch (error) {
        why = error;
        return false;
      }
    });
    if (fits.some((fit) => fit)) {
      if (!isScaled(lever)) return [{ ...lever, fits }];
      at ??= rows.map(({ changes }) =>
        changes.map((own) => read({ scenario, changes: [...before, ...own] }).cells),
      );
      return [{ ...lever, fits, at: at.map((row) => row.map((there) => scaledLever(lever.changes, there))) }];
    }
    if (study.levers.length > 0) throw why;
    return [];
  });
}

/** Levers with what they change at one candidate. */
export function leversAt(
  levers: readonly FittingLever[],
  { row, place }: { readonly row: number; readonly place: number },
): readonly FittingLever[] {
  return levers.map((lever) => ({ ...lever, changes: lever.at?.[row]?.[place] ?? lever.changes }));
}
