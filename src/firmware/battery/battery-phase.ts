/**
 * The phases of a battery shelf. `handover.ts` starts, carries and hands back; `recharge.ts` charges.
 *
 *   asleep → arming → carrying → handing back → waiting → charging → topping up → full
 *                        └→ empty, cooling ──────┘            any start may end in fault
 */
import type { Log } from '../../events/log.ts';

export type BatteryPhase =
  | 'asleep' // charged enough, armed
  | 'arming' // told to start, not yet there
  | 'carrying'
  | 'handing back'
  | 'waiting' // gave charge, waits its own time before it takes any; armed
  | 'charging' // takes the power it is granted; armed
  | 'topping up' // held at the full voltage, its current falls; armed
  | 'full' // charged again; armed
  | 'empty' // carried down to its lower end, or never had charge
  | 'cooling' // carried up to its highest temperature
  | 'fault'; // does not start, or was asked for what its packs have not: for good

/** Phases from which a shelf starts when AC is told lost or its bus is low. */
const armed: ReadonlySet<BatteryPhase> = new Set(['asleep', 'waiting', 'charging', 'topping up', 'full']);
const serving: ReadonlySet<BatteryPhase> = new Set(['carrying', 'handing back']);

/** Phases in which a shelf can give nothing, and the word for it. */
const spent: Partial<Record<BatteryPhase, 'empty' | 'hot' | 'fault'>> = {
  empty: 'empty',
  cooling: 'hot',
  fault: 'fault',
};

/** The phase of every battery shelf, and since when; a phase is what a shelf's spans are read from. */
export class Phases {
  readonly of: BatteryPhase[];
  /** Tick of the last change. */
  readonly since: Float64Array;
  /** Shelves that are arming, carrying or handing back: supervision must run. */
  awake = 0;
  private readonly names: readonly string[];
  private readonly log: Log;

  constructor(first: readonly BatteryPhase[], names: readonly string[], log: Log) {
    this.of = [...first];
    this.since = new Float64Array(first.length);
    this.names = names;
    this.log = log;
    for (let k = 0; k < first.length; k++) this.record(k);
  }

  enter(k: number, phase: BatteryPhase, tick: number): void {
    this.of[k] = phase;
    this.since[k] = tick;
    this.awake = this.of.filter((p) => p === 'arming' || serving.has(p)).length;
    this.record(k);
  }

  private record(k: number): void {
    const { log } = this;
    const name = this.names[k]!;
    log.spans.track('carrying', name, '').set(serving.has(this.of[k]!));
    log.spans.track('charging', name, '').set(this.isCharging(k));
    const what = spent[this.of[k]!];
    if (what === undefined) log.ends('out', name);
    else log.becomes('out', name, what);
  }

  isArmed(k: number): boolean {
    return armed.has(this.of[k]!);
  }

  /** Shelf k can give nothing until it is charged, cools or is mended. */
  isSpent(k: number): boolean {
    return spent[this.of[k]!] !== undefined;
  }

  isCharging(k: number): boolean {
    return this.of[k] === 'charging' || this.of[k] === 'topping up';
  }

  /** Does any shelf carry or hand back? */
  isServing(): boolean {
    return this.awake > 0 && this.of.some((p) => serving.has(p));
  }
}
