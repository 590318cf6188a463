/** The levers of a study, or the usual ones, and where each can be pulled. */
import type { ReadChanged } from '../trials/trial.ts';
import type { Situation } from '../written/situations.ts';
import type { StudyFile, Variant } from '../written/study-file.ts';

/** A lever, and which of the situations can take it. */
export type FittingLever = Variant & { readonly fits: readonly boolean[] };

const usual: readonly Variant[] = [
  { name: 'slower start: edges of 2 s', changes: [{ path: 'load.edge', value: '2 s' }] },
  {
    name: 'another control: a longer smoothing time',
    changes: [{ path: 'firmware.smoothing.time_constant', value: '3.4 s' }],
  },
  {
    name: 'another control: a shorter smoothing time',
    changes: [{ path: 'firmware.smoothing.time_constant', value: '2.3 s' }],
  },
  {
    name: 'another control form: ramps of the source',
    changes: [{ path: 'firmware.smoothing.reference', value: 'source-ramp' }],
  },
  {
    name: 'faster signal: half the period and latency',
    changes: [
      { path: 'firmware.smoothing.period', value: '0.25 ms' },
      { path: 'firmware.smoothing.latency', value: '0.25 ms' },
    ],
  },
  { name: 'more power per tray: 22 kW', changes: [{ path: 'trays.power_limit', value: '22 kW' }] },
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
): readonly FittingLever[] {
  const levers = study.levers.length > 0 ? study.levers : usual;
  return levers.flatMap((lever) => {
    let why: unknown = null;
    // A slower start is no change of a pulse train: it is pulled where it can be.
    const fits = situations.map(({ scenario, before, after }) => {
      try {
        read({ scenario, changes: [...before, ...after, ...lever.changes] });
        return true;
      } catch (error) {
        why = error;
        return false;
      }
    });
    if (fits.some((fit) => fit)) return [{ ...lever, fits }];
    if (study.levers.length > 0) throw why;
    return [];
  });
}
