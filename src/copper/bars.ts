/** What a piece of bar is made of: a pole and its return, each of some flat bars side by side, faces opposed. */
export interface Bars {
  /** Of one bar, across the current, and its thickness. */
  readonly width_m: number;
  readonly thickness_m: number;
  /** Bars of a pole, one beside the other with gaps as wide as a bar is thick. */
  readonly count: number;
  /** Between the nearest faces of the two poles. */
  readonly gap_m: number;
  readonly length_m: number;
  readonly temperature_degC: number;
  /** Of air that fans blow across it, along its width; 0 or none: still. */
  readonly air_speed_m_per_s?: number;
  /** From one pole of the piece into a liquid; 0 or none: not cooled so. */
  readonly coolant_resistance_K_per_W?: number;
}

/** Copper of a pole, across the current. */
export function section_m2({ width_m, thickness_m, count }: Bars): number {
  return width_m * thickness_m * count;
}

/** Where the middles of a pole's bars lie, from the middle of its first one [m]. */
export function places_m({ thickness_m, count }: Bars): number[] {
  return Array.from({ length: count }, (_, k) => 2 * k * thickness_m);
}

/** From the middle of the first bar of a pole to that of the first one of the other. */
export function poles_m(bars: Bars): number {
  return 2 * (bars.count - 1) * bars.thickness_m + bars.thickness_m + bars.gap_m;
}
