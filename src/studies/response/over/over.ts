/** The worst margins of a cabinet over loads, states, parts and tolerances, with the curves of the points that show them. */
import type { RunTrials, Trial } from '../../trials/trial.ts';
import type { Response } from '../respond.ts';
import { type Band, foundOf, type OverFound } from './found.ts';
import type { OverPlan } from './plan.ts';
import { pointTrial } from './point.ts';
import { searchWorst } from './search.ts';

/** `itself`: the point that the response is about, and what was found there. */
export async function findOver(
  plan: OverPlan,
  itself: { readonly trial: Trial<'response'>; readonly response: Response },
  run: RunTrials,
): Promise<OverFound> {
  const { found, worst } = foundOf(plan, plan.base, await searchWorst(plan, run));
  const { trial, response } = itself;
  const others = await run(
    worst.map((point): Trial<'response'> => {
      const { kind: _, ...asked } = pointTrial(plan.base, plan.shelf, point);
      return { ...trial, ...asked, state: point.state };
    }),
  );
  return { ...found, bands: bandsOf(response, others) };
}

/** Of each curve of the response the least and the most of it and of its like at other points. */
function bandsOf(response: Response, others: readonly Response[]): readonly Band[] {
  return response.curves.map(({ name, frequency_Hz, gain_dB }): Band => {
    const all = [
      gain_dB,
      ...others.flatMap(({ curves }) => {
        const like = curves.find((one) => one.name === name);
        return like === undefined || like.gain_dB.length !== gain_dB.length ? [] : [like.gain_dB];
      }),
    ];
    const over = (pick: (...values: number[]) => number): (number | null)[] =>
      frequency_Hz.map((_, k) => {
        const values = all.flatMap((curve) => curve[k] ?? []);
        return values.length === 0 ? null : pick(...values);
      });
    return { curve: name, frequency_Hz, low_dB: over(Math.min), high_dB: over(Math.max) };
  });
}
