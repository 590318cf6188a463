/** The part of npm package odex 2 that the independent integrator uses; its own source does not pass our flags. */
export class Solver {
  maxSteps: number;
  initialStepSize: number;
  relativeTolerance: number;
  absoluteTolerance: number;
  constructor(n: number);
  solve(
    f: (t: number, y: number[]) => number[],
    t0: number,
    y0: number[],
    tEnd: number,
  ): { y: number[]; outcome: number };
}
