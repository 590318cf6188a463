/**
 * Which output stage or tray is held by a limit that its device keeps by itself, step by step: current, power, slew.
 * Limits that firmware decides on are recorded where it decides. Times are exact to the step.
 */
import { stageMode } from '../../devices/stage/stage.ts';
import type { SpanBook, SpanTrack } from '../../events/span-book.ts';
import { SpanChoice } from '../../events/span-choice.ts';
import type { ShelfLimit } from '../../firmware/shelf/limited-by.ts';
import type { ShelfGuard } from '../../firmware/shelf/shelf-guard.ts';
import type { Network } from '../../network/network.ts';
import type { Stepper } from '../stepper.ts';

const stageLimits = ['current', 'power', 'bulk', 'walk-in', 'soft start', 'slew'] as const;

export class LimitMeter {
  private readonly network: Network;
  private readonly stepper: Stepper;
  private readonly guard: ShelfGuard;
  private readonly stages: readonly SpanChoice<'at-limit', ShelfLimit | 'slew'>[];
  private readonly trays: readonly SpanTrack[];
  /** Branches of the stages and slews of the trays as last seen. */
  private readonly mode: Uint8Array;
  private readonly slews: Uint8Array;

  constructor(network: Network, stepper: Stepper, guard: ShelfGuard, spans: SpanBook) {
    this.network = network;
    this.stepper = stepper;
    this.guard = guard;
    this.stages = network.stages.names.map((name) => new SpanChoice(spans, 'at-limit', name, stageLimits));
    this.trays = network.trays.names.map((name) => spans.track('at-limit', name, 'slew'));
    this.mode = new Uint8Array(network.stages.count).fill(stageMode.linear);
    this.slews = new Uint8Array(network.trays.count);
  }

  /** Looks at the step just taken, which began at the clock's tick. */
  step(): void {
    const { mode: seen, slews } = this;
    const { stages, trays } = this.network;
    const { mode } = stages;
    for (let k = 0; k < seen.length; k++) {
      const now = mode[k]!;
      if (now === seen[k] && now !== stageMode.limit) continue;
      seen[k] = now;
      this.stages[k]!.hold(this.stageLimit(k, now));
    }
    const { x1 } = this.stepper;
    for (let k = 0; k < slews.length; k++) {
      const now = trays.isSlewing(k, trays.power_W(k, x1)) ? 1 : 0;
      if (now === slews[k]) continue;
      slews[k] = now;
      this.trays[k]!.set(now === 1);
    }
  }

  private stageLimit(k: number, mode: number): ShelfLimit | 'slew' | null {
    if (mode === stageMode.slewUp || mode === stageMode.slewDown) return 'slew';
    if (mode !== stageMode.limit) return null;
    const { stages, shelfCount } = this.network;
    return k < shelfCount ? this.guard.limitOf(k, this.stepper.v1[stages.node[k]!]!) : 'current';
  }
}
