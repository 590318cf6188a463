/** A response in words. */
import { openModes } from './judge.ts';
import type { Response, ResponseMode } from './respond.ts';

/** `stable and damped`, or what grows or is weak, and who owns it. */
export function stateWords(response: Pick<Response, 'modes'>): string {
  const { growing, weak } = openModes(response);
  const [worst] = growing;
  if (worst !== undefined)
    return `UNSTABLE: ${growing.length} growing ${growing.length === 1 ? 'mode' : 'modes'}, ${ownerWords(worst)}`;
  const [first] = weak;
  if (first !== undefined)
    return `stable, ${weak.length} weakly damped: ${threeDigits(first.frequency_Hz)} Hz at ${first.damping_ratio.toFixed(3)}, ${ownerWords(first)}`;
  return 'stable and damped';
}

/** Where it stands: `Title, settled at 200.0 kW`. */
export function settledWords(title: string, { load_W }: Pick<Response, 'load_W'>): string {
  return `${title}, settled at ${(load_W / 1e3).toFixed(1)} kW`;
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
  return (size >= 1000 ? x.toFixed(0) : x.toPrecision(3)).replace('-', '−');
}
