/**
 * What a bank's capacitance is made of where its model states a slow branch: of the whole C, as a slow discharge shows it
 * (IEC 62391-1, IEC 62576), the share s comes and goes through a resistance with the time constant τ.
 *
 *   at once: (1 − s) C      slow: C_s = s C behind G_s = C_s/τ
 */
export interface WithSlowBranch {
  readonly capacitance_F: number;
  readonly slow_share_ratio: number;
  readonly slow_time_s: number;
}

export function hasSlowBranch({ slow_share_ratio }: Pick<WithSlowBranch, 'slow_share_ratio'>): boolean {
  return slow_share_ratio > 0;
}

/** What is there at once: the whole without a slow branch. */
export function fastCapacitance_F({
  capacitance_F,
  slow_share_ratio,
}: Pick<WithSlowBranch, 'capacitance_F' | 'slow_share_ratio'>): number {
  return capacitance_F * (1 - slow_share_ratio);
}

export function slowBranchOf({ capacitance_F, slow_share_ratio, slow_time_s }: WithSlowBranch): {
  readonly slow_F: number;
  readonly conductance_S: number;
} {
  const slow_F = slow_share_ratio * capacitance_F;
  return { slow_F, conductance_S: slow_F / slow_time_s };
}
