/** What happened in a run, in time order: events, mode changes, firmware decisions. */
export interface LogEntry {
  readonly tick: number;
  readonly time_s: number;
  /** Unit, bar, node or feeder. */
  readonly who: string;
  readonly what: LogKind;
  /** Plain words with numbers and units, for example `bulk at 330.0 V, DC stage stops`. */
  readonly detail: string;
}

export type LogKind =
  | 'event' // one the scenario states
  | 'load-edge' // the load jumps
  | 'limit-on' // a current, power or slew limit takes hold
  | 'limit-off'
  | 'dc-stop' // a shelf's DC stage stops: its bulk is empty
  | 'dc-restart'
  | 'ac-signal' // AC lost or good, as trays and batteries are told
  | 'walk-in' // a shelf's walk-in begins or ends
  | 'tray-stop'
  | 'tray-start'
  | 'tray-full' // the voltage window's taper takes hold
  | 'tray-infeasible' // asked for more than the bank can give
  | 'battery-start'
  | 'battery-carry'
  | 'battery-hand-back'
  | 'battery-sleep'
  | 'battery-empty'
  | 'sled-cut-off'
  | 'sled-restart';

/** Takes notes while a run goes on; time comes from the clock it is given, so that nobody passes ticks around. */
export class Log {
  readonly entries: LogEntry[] = [];
  /** Tick of the present moment, kept by the engine. */
  tick = 0;
  private readonly tick_s: number;

  constructor(tick_s: number) {
    this.tick_s = tick_s;
  }

  note(who: string, what: LogKind, detail: string): void {
    this.entries.push({ tick: this.tick, time_s: this.tick * this.tick_s, who, what, detail });
  }
}
