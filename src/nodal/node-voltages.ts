/**
 * The node voltages at which a factored matrix carries the currents of units: summed at their joints, and solved. In the
 * compiled kernel both are written out for the network at hand, where it is not too large.
 */
import type { Int } from '../base/int.ts';
import type { Joints } from './joints.ts';
import type { NodalMatrix } from './matrix.ts';
import { mostWrittenOut } from './written-out.ts';

export class NodeVoltages {
  private readonly joints: Joints;
  /** Currents into the nodes [A]. */
  private readonly into_A: Float64Array;
  private readonly isWrittenOut: Int;

  constructor(joints: Joints) {
    this.joints = joints;
    this.into_A = new Float64Array(joints.nodeCount);
    this.isWrittenOut = joints.nodeCount <= mostWrittenOut ? 1 : 0;
  }

  /** Writes the voltages [V] at the units' currents [A]. */
  solve(v: Float64Array, matrix: NodalMatrix, current_A: Float64Array): void {
    if (this.isWrittenOut === 1) solveWrittenOut(this, v, matrix, current_A);
    else this.walk(v, matrix, current_A);
  }

  /** The same as loops. */
  walk(v: Float64Array, matrix: NodalMatrix, current_A: Float64Array): void {
    this.joints.sum(this.into_A, current_A);
    matrix.solve(v, this.into_A);
  }
}

/** The solve written out for the network at hand; without WebAssembly it is the loops. The build gives the kernel the other. */
export function solveWrittenOut(
  voltages: NodeVoltages,
  v: Float64Array,
  matrix: NodalMatrix,
  current_A: Float64Array,
): void {
  voltages.walk(v, matrix, current_A);
}
