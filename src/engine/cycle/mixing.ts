/**
 * Anderson's mixing of past tries for a state that repeats.
 * Reference: D. G. Anderson, J. ACM 12(4), 1965.
 */
import { Matrix, solve } from 'ml-matrix';

/** Tries that are kept. */
const depth = 5;

export class Mixing {
  private readonly goals: Float64Array[] = [];
  private readonly misses: Float64Array[] = [];

  /**
   * The next state to try. `goal`: where the last try pointed; `miss`: how far that was from where it began. Of past
   * tries the combination is taken whose misses cancel best in the least-squares sense; of one alone its goal.
   */
  next(goal: Float64Array, miss: Float64Array): Float64Array {
    this.goals.push(goal);
    this.misses.push(miss);
    // No more misses than states: further ones could not be told apart.
    if (this.goals.length > Math.min(depth, goal.length + 1)) {
      this.goals.shift();
      this.misses.shift();
    }
    return mixed(this.goals, this.misses);
  }

  forget(): void {
    this.goals.length = 0;
    this.misses.length = 0;
  }
}

function mixed(goals: readonly Float64Array[], misses: readonly Float64Array[]): Float64Array {
  const m = goals.length - 1;
  const last = misses[m]!;
  const out = goals[m]!.slice();
  if (m === 0) return out;
  const n = last.length;
  const A = Matrix.zeros(n, m);
  for (let c = 0; c < m; c++) for (let r = 0; r < n; r++) A.set(r, c, last[r]! - misses[c]![r]!);
  const weights = solve(A, Matrix.columnVector([...last]), true);
  for (let c = 0; c < m; c++) {
    const weight = weights.get(c, 0);
    for (let r = 0; r < n; r++) out[r]! -= weight * (goals[m]![r]! - goals[c]![r]!);
  }
  return out;
}
