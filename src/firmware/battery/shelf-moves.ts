/** What a battery shelf does when it is told to: start, carry, sleep, and what ends its carrying by itself. */
import type { HandoverValues } from '../../scenario/parameters/handover.ts';
import type { Site } from '../site.ts';
import type { Phases } from './battery-phase.ts';
import { type CarryColumns, type CarryEnd, carryEnd } from './carry-end.ts';

export class ShelfMoves {
  /** Starts so far. */
  starts = 0;
  /** What events do to a shelf's next start: ticks beyond its start time; not at all. */
  readonly late: Float64Array;
  readonly failed: Uint8Array;
  private readonly site: Site;
  private readonly phases: Phases;
  private readonly columns: CarryColumns & { readonly charges: readonly boolean[] };
  private readonly start: number;

  constructor(
    site: Site,
    { start_time_s }: HandoverValues,
    columns: CarryColumns & { readonly charges: readonly boolean[] },
    phases: Phases,
  ) {
    this.site = site;
    this.columns = columns;
    this.phases = phases;
    this.start = site.ticks(start_time_s);
    this.late = new Float64Array(site.batteries.count);
    this.failed = new Uint8Array(site.batteries.count);
  }

  /** An armed shelf starts towards a set point; one that charges stops charging. Returns its kick. */
  begin(k: number, tick: number, set_V: number, why: string): number {
    const { batteries, packs, log } = this.site;
    const kick = batteries.resting_A(k) < 0 ? Number.POSITIVE_INFINITY : 0;
    batteries.commandResting(k, 0);
    const z = packs.charge_ratio(k);
    if (this.failed[k]) {
      this.end(k, tick, { phase: 'fault', detail: `told to start (${why}), does not start` });
    } else if (z <= this.columns.chargeMin[k]!) {
      const charge = `${(z * 100).toFixed(1)} % of charge`;
      this.end(k, tick, { phase: 'empty', detail: `told to start (${why}) with ${charge}: nothing to give` });
    } else {
      this.phases.enter(k, 'arming', tick);
      batteries.commandSetPoint(k, set_V);
      log.note(batteries.names[k]!, 'battery-start', `starts: ${why}`);
      this.starts++;
    }
    return kick;
  }

  /** A shelf that is starting carries once its start time is over. */
  carryWhenStarted(k: number, tick: number): number {
    const { batteries, log } = this.site;
    if (tick - this.phases.since[k]! < this.start + this.late[k]!) return 0;
    this.phases.enter(k, 'carrying', tick);
    batteries.run(k, true);
    log.note(batteries.names[k]!, 'battery-carry', `carries from ${batteries.output_V(k).toFixed(2)} V`);
    return Number.POSITIVE_INFINITY;
  }

  /** What ends a carry before it is told to; null while it may go on. */
  endOf(k: number): CarryEnd | null {
    const { packs } = this.site;
    return carryEnd(packs, this.columns, k, packs.power_W(k));
  }

  /** To sleep, where something charges it to wait for its charge. */
  sleep(k: number, tick: number): number {
    const { batteries, log } = this.site;
    this.phases.enter(k, this.columns.charges[k] ? 'waiting' : 'asleep', tick);
    batteries.run(k, false);
    log.note(batteries.names[k]!, 'battery-sleep', 'asleep again');
    return Number.POSITIVE_INFINITY;
  }

  /** The shelf gives no more. */
  end(k: number, tick: number, { phase, detail }: CarryEnd): number {
    const kinds = { empty: 'battery-empty', cooling: 'battery-hot', fault: 'battery-fault' } as const;
    this.phases.enter(k, phase, tick);
    this.site.batteries.run(k, false);
    this.site.log.note(this.site.batteries.names[k]!, kinds[phase], detail);
    return Number.POSITIVE_INFINITY;
  }
}
