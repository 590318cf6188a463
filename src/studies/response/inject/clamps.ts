/** Who comes to a clamp while a cabinet swings: output and input stages, trays, and whatever firmware tells of a limit. */
import { stageMode } from '../../../devices/stage/stage.ts';
import type { Cabinet } from '../../../engine/cabinet.ts';
import { LimitMeter } from '../../../engine/meters/limit-meter.ts';
import type { RecordedSpan } from '../../../events/spans.ts';

/** The first that came to a clamp, which, and when after the swing began. */
export interface Clamp {
  readonly who: string;
  readonly what: string;
  readonly at_s: number;
}

/** Looks at every step of a cabinet that rests when this is made: what held there is no clamp of the swing. */
export class ClampWatch {
  private readonly cabinet: Cabinet;
  private readonly meter: LimitMeter;
  private readonly held: ReadonlySet<string>;
  /** What no span tells of. */
  private own: Clamp | null = null;

  constructor(cabinet: Cabinet) {
    const { network, stepper, controls, log } = cabinet;
    this.cabinet = cabinet;
    this.meter = new LimitMeter(network, stepper.step.ends, controls.shelfGuard, log.spans);
    this.held = new Set(this.limits(0).map(nameOf));
  }

  /** The step just taken, up to `at_s`. */
  step(at_s: number): void {
    this.meter.step();
    this.own ??= this.untold(at_s);
  }

  /** The first clamp up to `tick`. */
  first(tick: number): Clamp | null {
    const told = this.limits(tick).find((span) => !this.held.has(nameOf(span)));
    const span = told === undefined ? null : { who: told.who, what: told.what, at_s: told.from_s };
    if (span === null || this.own === null) return span ?? this.own;
    return this.own.at_s < span.at_s ? this.own : span;
  }

  private limits(tick: number): RecordedSpan[] {
    const { log, network } = this.cabinet;
    return log.spans.readings(tick, network.scenario.tick_s).filter(({ kind }) => kind === 'at-limit');
  }

  /** A stage that cannot take current, an input stage that gives nothing or all that it may, a tray's own current limit. */
  private untold(at_s: number): Clamp | null {
    const { network, stepper } = this.cabinet;
    const { stages, intakes, trays, shelfCount, packs } = network;
    for (let k = 0; k < stages.count; k++) {
      const gives = stages.running[k] === 1 && (k < shelfCount || k >= packs.firstStage);
      if (gives && stages.mode[k] === stageMode.zero) return { who: stages.names[k]!, what: 'zero', at_s };
    }
    for (let k = 0; k < intakes.count; k++)
      if (intakes.present[k] === 1 && intakes.isClamped(k, stepper.x1))
        return { who: intakes.names[k]!, what: 'input power', at_s };
    for (let k = 0; k < trays.count; k++)
      if (trays.isAtCurrentLimit(k, trays.power_W(k, stepper.x1), stepper.v1[trays.node[k]!]!))
        return { who: trays.names[k]!, what: 'current', at_s };
    return null;
  }
}

function nameOf({ who, what }: Pick<RecordedSpan, 'who' | 'what'>): string {
  return `${who} ${what}`;
}
