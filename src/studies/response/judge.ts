/** What a response comes to: whether every mode dies away, and fast enough; which modes decide. */
import { drifts, empties, grows, isJudged, isNeutral, isWeak } from '../damping.ts';
import type { End } from '../end.ts';
import type { OverFound } from './over/found.ts';
import type { Response, ResponseMode } from './respond.ts';

type Judged = Pick<Response, 'modes'> & Partial<Pick<Response, 'emptying_per_s'>>;

/** Modes that grow, the fastest first; those that neither grow nor decay; of the others those that swing for longer than they may. */
export function openModes({ modes, emptying_per_s = 0 }: Judged): {
  readonly growing: readonly ResponseMode[];
  readonly neutral: readonly ResponseMode[];
  readonly weak: readonly ResponseMode[];
} {
  return {
    growing: modes
      .filter((mode) => grows(mode) && !empties(mode, emptying_per_s))
      .sort((a, b) => b.real_per_s - a.real_per_s),
    neutral: modes.filter(isNeutral),
    weak: modes.filter(isWeak),
  };
}

/** It passes where no mode grows, at none of the points that the worst margins were looked for at; a weak one is told. */
export function responseEnd(response: Judged & { readonly over?: OverFound | null }): End {
  const isUnstable = response.over?.asked.some(({ growing }) => growing !== null) === true;
  return isUnstable || openModes(response).growing.length > 0 ? 'failed' : 'passed';
}

/** A word for a mode that is not as it should be; '' for one that is. */
export function modeWord(
  mode: ResponseMode,
): 'grows' | 'drifts' | 'neutral' | 'beyond the model' | 'weak' | '' {
  if (grows(mode)) return drifts(mode) ? 'drifts' : 'grows';
  if (isNeutral(mode)) return 'neutral';
  if (isWeak(mode)) return 'weak';
  return isJudged(mode.frequency_Hz) ? '' : 'beyond the model';
}

/** A sleeping pack's own warmth and polarisation drive nothing: its modes are left to the whole list. */
const ownPack = /(temperature degC|polarisation V)$/;

/** The six slowest, and the eight least damped that swing. */
export function deciding(modes: readonly ResponseMode[]): readonly ResponseMode[] {
  const acting = modes.filter(({ owners }) => !owners.every(({ name }) => ownPack.test(name)));
  const slow = acting.slice(0, 6);
  const swinging = acting
    .filter(
      (mode) =>
        mode.frequency_Hz > 0 && (isJudged(mode.frequency_Hz) || isWeak(mode)) && !slow.includes(mode),
    )
    .sort((a, b) => a.damping_ratio - b.damping_ratio)
    .slice(0, 8);
  return [...slow, ...swinging];
}
