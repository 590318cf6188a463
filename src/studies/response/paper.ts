/** A response in words. */

import { numberText } from '../../analysis/words/number-text.ts';
import { digits } from '../../base/digits.ts';
import { drifts } from '../damping.ts';
import { openModes } from './judge.ts';
import type { Response, ResponseMode } from './respond.ts';

/** `stable and damped`, or what grows, how fast, what is neutral or weak, and who owns it. */
export function stateWords(
  response: Pick<Response, 'modes'> & Partial<Pick<Response, 'emptying_per_s'>>,
): string {
  const { growing, neutral, weak } = openModes(response);
  const [worst] = growing;
  if (worst !== undefined) {
    const count = `${growing.length} growing ${growing.length === 1 ? 'mode' : 'modes'}`;
    const pace = `by e in ${paceWords(1 / worst.real_per_s)}`;
    return drifts(worst)
      ? `DRIFTS: ${count}, the fastest ${pace}, slow enough for a slower loop or an operator to hold; ${ownerWords(worst)}`
      : `UNSTABLE: ${count}, the fastest ${pace}; ${ownerWords(worst)}`;
  }
  const [first] = weak;
  const [still] = neutral;
  const stands =
    still === undefined
      ? ''
      : `, ${neutral.length} neutral (${still.frequency_Hz > 0 ? 'swings on' : 'stays where it is put'}, slower than can be told): ${ownerWords(still)}`;
  if (first !== undefined)
    return `stable, ${weak.length} weakly damped: ${threeDigits(first.frequency_Hz)} Hz at ${first.damping_ratio.toFixed(3)}, ${ownerWords(first)}${stands}`;
  return still === undefined ? 'stable and damped' : `stable${stands}`;
}

/** A time as a reader acts on it: minutes and hours above two of them. */
function paceWords(seconds: number): string {
  if (seconds >= 7200) return `${Math.round(seconds / 3600)} h`;
  return seconds >= 120 ? `${Math.round(seconds / 60)} min` : numberText(seconds, 's', 3);
}

/** Where it stands: `Title, settled at 200.0 kW after ac-loss all`. */
export function settledWords(title: string, { load_W, state }: Pick<Response, 'load_W' | 'state'>): string {
  const after = state.length === 0 ? '' : ` after ${state.join(', ')}`;
  return `${title}, settled at ${(load_W / 1e3).toFixed(1)} kW${after}`;
}

/** The three that take part most. */
export function ownerWords({ owners }: ResponseMode): string {
  return owners
    .slice(0, 3)
    .map(({ name, share_ratio }) => `${Math.round(100 * share_ratio)} % ${name}`)
    .join(', ');
}

export function threeDigits(x: number): string {
  const size = Math.abs(x);
  return (size >= 999.5 ? x.toFixed(0) : digits(x)).replace('-', '−');
}
