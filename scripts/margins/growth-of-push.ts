/** How a small push of a shelf's current dies or grows in a cabinet that rests. */
import { advance } from '../../src/engine/advance.ts';
import type { Cabinet } from '../../src/engine/cabinet.ts';
import { firmwareAgenda } from '../../src/engine/firmware-agenda.ts';

export interface Push {
  /** Small enough to grow for a while before a clamp holds it. */
  readonly push_A: number;
  /** What dies fast is over then; and when the push is looked at again. */
  readonly early_s: number;
  readonly late_s: number;
}

const usual: Push = { push_A: 0.01, early_s: 10e-3, late_s: 25e-3 };
/** Over so long the fastest move is taken [s]. */
const window_s = 1e-3;
/** Small swings look calm to the ladder: it is sent down again so often that it steps finely all along. */
const kicksPerWindow = 20;

/** Rate at which how fast currents move grows, below 0 where it dies [1/s]. */
export function growthOfPush(cabinet: Cabinet, { push_A, early_s, late_s }: Push = usual): number {
  const { stepper, network, ladder } = cabinet;
  const { stages, scenario, shelfCount } = network;
  stepper.x0[stages.offset]! += push_A;
  const ticks = (s: number): number => Math.round(s / scenario.tick_s);
  const agenda = firmwareAgenda(cabinet, 0);
  let most = 0;
  const observer = {
    edge: () => {},
    step: (a: number, b: number) => {
      for (let k = 0; k < shelfCount; k++) {
        const at = stages.offset + k;
        most = Math.max(most, Math.abs(stepper.x1[at]! - stepper.x0[at]!) / (b - a));
      }
      return true;
    },
  };
  const windows = Math.round((late_s + window_s) / window_s);
  const fastest = Array.from({ length: windows }, (_, w) => {
    most = 0;
    for (let k = 0; k < kicksPerWindow; k++) {
      ladder.kick(Number.POSITIVE_INFINITY);
      const from = w + k / kicksPerWindow;
      advance(
        cabinet,
        agenda,
        ticks(from * window_s),
        ticks((from + 1 / kicksPerWindow) * window_s),
        observer,
      );
    }
    return most;
  });
  const at = (s: number): number => fastest[Math.round(s / window_s)]!;
  return Math.log(at(late_s) / at(early_s)) / (late_s - early_s);
}
