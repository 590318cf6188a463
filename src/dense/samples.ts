/** Columns of samples: filtered, and waves. Short ones run as they stand. */
import { compiled } from './compiled.ts';
import { filter, wave } from './filters.ts';

/** Below so many samples, moving them into the compiled form's memory costs more than it saves. */
const fewSamples = 32;

/** A column in place through sections in a row (`filters.ts`), which go on where the last column left them. */
export function filterColumn(x: Float64Array, terms: Float64Array, kept: Float64Array): void {
  const sections = kept.length / 2;
  const fast = x.length < fewSamples ? null : compiled();
  if (fast === null) filter(x, x.length, terms, kept, sections);
  else
    fast.through([x, terms, kept], [x, kept], (...at) =>
      fast.call.filter(at[0]!, x.length, at[1]!, at[2]!, sections),
    );
}

/** cos 2πt (from + m) for each m of the column: t turns from one sample to the next. */
export function waveColumn(x: Float64Array, from: number, turns: number): void {
  const fast = x.length < fewSamples ? null : compiled();
  if (fast === null) wave(x, x.length, from, turns);
  else fast.through([x], [x], (at) => fast.call.wave(at!, x.length, from, turns));
}
