/** One line of an estimate: a hand rule with its formula, its numbers and what it asks for. */
export interface EstimateLine {
  /** Number of the rule, 1 to 14. */
  readonly rule: number;
  readonly title: string;
  /** The load it is about, '' where about the design. */
  readonly about: string;
  readonly formula: string;
  readonly numbers: string;
  /** What it asks for, in words. */
  readonly asks: string;
  /** Trays it asks for before rounding up, where it asks for trays. */
  readonly trays: number | null;
  /** Which of the safety factors of rule 12 holds for it; none where it asks for no trays. */
  readonly safety?: 'energy' | 'power' | 'rms';
}
