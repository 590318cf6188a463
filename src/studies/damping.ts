/** Damping that modes must have: common practice, no source. */
import type { Mode } from '../linear/modes.ts';

export const leastDamping = { below_1kHz_ratio: 0.3, below_10kHz_ratio: 0.15, beyond_ratio: 0.02 } as const;

/** What alternates from sample to sample of a 0.5 ms task swings at 1 kHz but for the last digits, and is not below it. */
export function isBelow1kHz(frequency_Hz: number): boolean {
  return frequency_Hz < 1e3 * (1 - 1e-9);
}

/** The averaged model is trusted up to here: above it a mode is asked for no more than every run asks of it, `beyond_ratio`. */
export const judged_Hz = 1e4;

/** What alternates from sample to sample of a 50 µs loop swings at 10 kHz but for the last digits, and is not beyond it. */
export function isJudged(frequency_Hz: number): boolean {
  return frequency_Hz <= judged_Hz * (1 + 1e-9);
}

/**
 * A mode slower than this neither grows nor decays as far as can be told [1/s]. Eigenvalues are known to about n ε ‖A‖: 350
 * states, rates up to 1e6 1/s and 2.2e-16 make 8e-8 1/s. An integrator that nothing holds is such a mode.
 */
export const neutral_per_s = 1e-7;

/** Growth slower than this is drift, as in every run's own look: an operator or a slower loop has time to act [s]. */
export const drift_s = 100;

export function grows({ real_per_s }: Pick<Mode, 'real_per_s'>): boolean {
  return real_per_s > neutral_per_s;
}

export function isNeutral({ real_per_s }: Pick<Mode, 'real_per_s'>): boolean {
  return Math.abs(real_per_s) <= neutral_per_s;
}

/** It grows, and takes longer than `drift_s` to do so by e. */
export function drifts(mode: Pick<Mode, 'real_per_s'>): boolean {
  return grows(mode) && mode.real_per_s * drift_s < 1;
}

/** Packs that carry give away their charge: a mode that does not swing and grows no faster is theirs, and no instability. */
export function empties(mode: Pick<Mode, 'real_per_s' | 'frequency_Hz'>, emptying_per_s: number): boolean {
  return grows(mode) && mode.frequency_Hz === 0 && mode.real_per_s <= emptying_per_s;
}

/** Poles that grow; a mode that swings has two, but for one that alternates. */
export function growingPoles(
  modes: readonly Pick<Mode, 'real_per_s' | 'frequency_Hz' | 'count' | 'alternates'>[],
): number {
  return modes
    .filter(grows)
    .reduce(
      (sum, { frequency_Hz, count, alternates }) => sum + count * (frequency_Hz > 0 && !alternates ? 2 : 1),
      0,
    );
}

/** It dies away, and swings for longer than it may. */
export function isWeak(mode: Pick<Mode, 'real_per_s' | 'frequency_Hz' | 'damping_ratio'>): boolean {
  return !grows(mode) && !isNeutral(mode) && lacksDamping(mode);
}

function lacksDamping({
  frequency_Hz,
  damping_ratio,
}: Pick<Mode, 'frequency_Hz' | 'damping_ratio'>): boolean {
  const { below_1kHz_ratio, below_10kHz_ratio, beyond_ratio } = leastDamping;
  if (!isJudged(frequency_Hz)) return damping_ratio < beyond_ratio;
  return damping_ratio < (isBelow1kHz(frequency_Hz) ? below_1kHz_ratio : below_10kHz_ratio);
}
