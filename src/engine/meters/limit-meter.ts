/**
 * Which output stage or tray is held by a limit that its device keeps by itself, step by step: current, power, slew.
 * Limits that firmware decides on are recorded where it decides. Times are exact to the step.
 */
import type { Int } from '../../base/int.ts';
import type { Ends } from '../../devices/ends.ts';
import { type Stages, stageMode } from '../../devices/stage/stage.ts';
import type { Trays } from '../../devices/tray/tray.ts';
import type { SpanBook, SpanTrack } from '../../events/span-book.ts';
import { SpanChoice } from '../../events/span-choice.ts';
import type { ShelfLimit } from '../../firmware/shelf/limited-by.ts';
import type { ShelfGuard } from '../../firmware/shelf/shelf-guard.ts';
import type { Network } from '../../network/network.ts';

const stageLimits = ['current', 'power', 'bulk', 'walk-in', 'soft start', 'slew'] as const;

export class LimitMeter {
  private readonly network: Network;
  private readonly ends: Ends;
  private readonly guard: ShelfGuard;
  private readonly ofStages: readonly SpanChoice<'at-limit', ShelfLimit | 'slew'>[];
  private readonly ofTrays: readonly SpanTrack[];
  private readonly stages: Stages;
  private readonly trays: Trays;
  private readonly stageCount: Int;
  private readonly trayCount: Int;
  /** Branches of the stages and slews of the trays as last seen. */
  private readonly modes: Uint8Array;
  private readonly slews: Uint8Array;

  constructor(network: Network, ends: Ends, guard: ShelfGuard, spans: SpanBook) {
    this.network = network;
    this.ends = ends;
    this.guard = guard;
    const { stages, trays } = network;
    this.stages = stages;
    this.trays = trays;
    this.stageCount = stages.count;
    this.trayCount = trays.count;
    this.ofStages = stages.names.map((name) => new SpanChoice(spans, 'at-limit', name, stageLimits));
    this.ofTrays = trays.names.map((name) => spans.track('at-limit', name, 'slew'));
    this.modes = new Uint8Array(stages.count).fill(stageMode.linear);
    this.slews = new Uint8Array(trays.count);
  }

  /** Whether a step that ends at states x leaves `step` anything to do: a limit holds, or something else than before. */
  isMoved(x: Float64Array): boolean {
    const { stageCount, trayCount, modes, slews, stages, trays } = this;
    const { mode } = stages;
    for (let k: Int = 0; k < stageCount; k++)
      if (mode[k] !== modes[k] || mode[k] === stageMode.limit) return true;
    for (let k: Int = 0; k < trayCount; k++)
      if (trays.isSlewing(k, trays.power_W(k, x)) !== (slews[k] === 1)) return true;
    return false;
  }

  /** Looks at the step just taken, which began at the clock's tick. */
  step(): void {
    const { modes, slews, stages, trays } = this;
    const { mode } = stages;
    for (let k = 0; k < modes.length; k++) {
      const now = mode[k]!;
      if (now === modes[k] && now !== stageMode.limit) continue;
      modes[k] = now;
      this.ofStages[k]!.hold(this.stageLimit(k, now));
    }
    const { x1 } = this.ends;
    for (let k = 0; k < slews.length; k++) {
      const now = trays.isSlewing(k, trays.power_W(k, x1)) ? 1 : 0;
      if (now === slews[k]) continue;
      slews[k] = now;
      this.ofTrays[k]!.set(now === 1);
    }
  }

  private stageLimit(k: number, mode: number): ShelfLimit | 'slew' | null {
    if (mode === stageMode.slewUp || mode === stageMode.slewDown) return 'slew';
    if (mode !== stageMode.limit) return null;
    const { stages, shelfCount } = this.network;
    return k < shelfCount ? this.guard.limitOf(k, this.ends.v1[stages.node[k]!]!) : 'current';
  }
}
