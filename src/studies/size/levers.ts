/**
 * The next change that would help most: each lever is pulled alone at a candidate that just fails, one step
 * below the answer, and what binds then is told. A study may list its own; these are tried where it does not.
 */

import { textOf, trialsOf } from '../search/candidates.ts';
import { bindingOf, decidedBy, passes, tightest } from '../trials/run-outcome.ts';
import { type Letter, worstLetter } from '../trials/states.ts';
import type { ReadChanged, RunWhole } from '../trials/trial.ts';
import type { Situation } from '../written/situations.ts';
import type { StudyFile, Variant } from '../written/study-file.ts';
import { wordsOf } from './axes.ts';
import type { Answer } from './choose.ts';
import type { SizePlan } from './plan.ts';

export interface Lever {
  readonly name: string;
  readonly changes: string;
  readonly at: string;
  /** Every situation passes with it, one step below the answer. */
  readonly passes: boolean;
  readonly letter: Letter;
  readonly tightest_ratio: number;
  readonly without_ratio: number;
  readonly binding: string;
}

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

/** Pulls each lever alone at one candidate, in every situation that can take it. */
export async function pullLevers(
  { levers, situations }: Pick<SizePlan, 'levers' | 'situations'>,
  { values, changes: at }: Answer['pulledAt'],
  run: RunWhole,
): Promise<readonly Lever[]> {
  const rows = levers.map(({ changes, fits }) =>
    trialsOf(situations, at).map(({ changes: before, ...trial }, k) => ({
      ...trial,
      changes: fits[k] ? [...before, ...changes] : before,
    })),
  );
  const without = await run(trialsOf(situations, at));
  const outcomes = await run(rows.flat());
  const pulled = levers.map(({ name, changes }, k): Lever => {
    const own = outcomes.slice(k * situations.length, (k + 1) * situations.length);
    const worst = own.reduce((a, b) => (tightest(b) < tightest(a) ? b : a));
    return {
      name,
      changes: textOf(changes),
      at: wordsOf(values),
      passes: own.every(passes),
      letter: worstLetter(own),
      tightest_ratio: tightest(worst),
      without_ratio: Math.min(...without.map(tightest)),
      binding: bindingOf(worst)?.id ?? decidedBy(worst).replaceAll('_', ' '),
    };
  });
  return pulled.sort((a, b) => b.tightest_ratio - a.tightest_ratio);
}
