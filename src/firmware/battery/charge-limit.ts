/** What a pack may take: less when it is cold or hot, and no more than its full voltage lets in. */

export interface ChargeWindow {
  /** Full power between `cold` and `hot`, none below `coldStop` and above `hotStop` [°C]. */
  readonly coldStop_degC: number;
  readonly cold_degC: number;
  readonly hot_degC: number;
  readonly hotStop_degC: number;
}

/** Share of the charge power at temperature T: straight between the ends of the window. */
export function chargeDerating(window: ChargeWindow, T: number): number {
  const rise = (T - window.coldStop_degC) / (window.cold_degC - window.coldStop_degC);
  const fall = (window.hotStop_degC - T) / (window.hotStop_degC - window.hot_degC);
  const least = rise < fall ? rise : fall;
  return least > 1 ? 1 : least > 0 ? least : 0;
}

/**
 * Current at which the terminals stand at the full voltage [A]: (V_full − U)/R0, U the voltage behind R0. A pack
 * without resistance takes any current until it stands there.
 */
export function currentAtFull_A(full_V: number, behind_V: number, R0: number): number {
  const short = full_V - behind_V;
  if (short <= 0) return 0;
  return R0 > 0 ? short / R0 : Number.POSITIVE_INFINITY;
}

/** Power from the bus that holds the packs at their full voltage [W]: V_full I_cv/η. */
export function powerAtFull_W(full_V: number, most_A: number, efficiency: number): number {
  return (full_V * most_A) / efficiency;
}

/** Current at full voltage that ends the charge [A]: a share of that of full charge power. */
export function endCurrent_A(end_ratio: number, power_W: number, efficiency: number, full_V: number): number {
  return (end_ratio * power_W * efficiency) / full_V;
}
