/** Both ends of a step, and what is on its way between them. Arrays are written in place: nothing is allocated. */
export class Ends {
  /** States at the start and at the end, and their derivatives at the start. */
  readonly x0: Float64Array;
  readonly x1: Float64Array;
  readonly dx0: Float64Array;
  /** Node voltages at the start and at the end [V]. */
  readonly v0: Float64Array;
  readonly v1: Float64Array;
  /** Node voltages at the end that the next solve is made about: along the last step's slope, then as last solved [V]. */
  readonly expected: Float64Array;
  /** Current of every unit into its node at v1 = 0, each kind from its own place on (`network/currents.ts`) [A]. */
  readonly current_A: Float64Array;

  constructor(states: number, nodes: number, units: number) {
    this.x0 = new Float64Array(states);
    this.x1 = new Float64Array(states);
    this.dx0 = new Float64Array(states);
    this.v0 = new Float64Array(nodes);
    this.v1 = new Float64Array(nodes);
    this.expected = new Float64Array(nodes);
    this.current_A = new Float64Array(units);
  }
}
