/**
 * The next change that would help most: each lever is pulled alone at a candidate that just fails, one step
 * below the answer, and what binds then is told. A study may list its own; these are tried where it does not.
 */
import type { Change } from '../../scenario/scenario.ts';
import type { StudyContext } from '../context.ts';
import type { Situation } from '../cross.ts';
import { type Letter, worstLetter } from '../states.ts';
import type { StudyFile, Variant } from '../study-file.ts';
import { bindingOf, decidedBy, passes, type RunTrials, tightest } from '../trial.ts';
import { textOf, trialsOf } from './candidates.ts';

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
  read: StudyContext['read'],
  situations: readonly Situation[],
): readonly (Variant & { readonly fits: readonly boolean[] })[] {
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

export async function pullLevers(
  levers: ReturnType<typeof leversOf>,
  situations: readonly Situation[],
  at: readonly Change[],
  called: string,
  run: RunTrials,
): Promise<readonly Lever[]> {
  const rows = levers.map(({ changes, fits }) =>
    trialsOf(situations, at).map(({ scenario, changes: before }, k) => ({
      scenario,
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
      at: called,
      passes: own.every(passes),
      letter: worstLetter(own),
      tightest_ratio: tightest(worst),
      without_ratio: Math.min(...without.map(tightest)),
      binding: bindingOf(worst)?.id ?? decidedBy(worst).replaceAll('_', ' '),
    };
  });
  return pulled.sort((a, b) => b.tightest_ratio - a.tightest_ratio);
}
