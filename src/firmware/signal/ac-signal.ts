/**
 * The AC-loss signal: what trays and battery shelves are told about the feeders, t_det + t_sig after it
 * happened, on the supervisor's own sample. Lost as soon as one feeder is lost; good when all are back.
 * The signal itself may fail: silent, nothing is told and the last word stands until it speaks again and says
 * how things are; late, every word comes later by a fixed and a drawn time, in the order in which it was sent.
 * It tells changes, each dated by when it happened (a brown-out back by the detection time, which it has had itself), so
 * it is no `Signal`: samples every 0.1 ms would stop the step at each, and could not be dated.
 */
import type { Log } from '../../events/log.ts';
import type { Random } from '../../loads/random.ts';
import type { Firmware } from '../../scenario/scenario.ts';
import type { Site } from '../site.ts';
import type { Watcher } from '../task.ts';

export class AcSignal implements Watcher {
  readonly name = 'AC signal';
  /** As told: AC is lost. */
  lost = false;
  /** How much later words come than detection and latency alone would have it [ticks]. */
  late = 0;
  /** Tick at which it was last told good after a loss. */
  goodSince = 0;
  /** Detection and signal latency together [ticks]. */
  private readonly delay: number;
  private readonly pending: { readonly tick: number; readonly feeder: string; readonly lost: boolean }[] = [];
  private readonly dark = new Set<string>();
  /** How things are, told or not. */
  private readonly truth = new Set<string>();
  private silent = false;
  private jitter = 0;
  private random: Random | null = null;
  private readonly log: Log;
  private readonly onChange: (lost: boolean, tick: number) => void;

  constructor(
    site: Site,
    { detection_s, signal_latency_s }: Firmware['supervisor'],
    onChange: (lost: boolean, tick: number) => void,
  ) {
    this.delay = site.ticks(detection_s + signal_latency_s);
    this.log = site.log;
    this.onChange = onChange;
  }

  /** A feeder went or came back at `tick`. */
  tell(tick: number, feeder: string, lost: boolean): void {
    if (lost) this.truth.add(feeder);
    else this.truth.delete(feeder);
    if (!this.silent) this.send(tick, feeder, lost);
  }

  private send(tick: number, feeder: string, lost: boolean): void {
    const drawn = this.random === null ? 0 : Math.round(this.random.uniform() * this.jitter);
    const due = tick + this.delay + this.late + drawn;
    const before = this.pending.at(-1)?.tick ?? due;
    this.pending.push({ tick: due > before ? due : before, feeder, lost });
  }

  /** Nothing is told from now on, not even what is under way; or it is, beginning with how things are. */
  silence(tick: number, silent: boolean): void {
    this.silent = silent;
    if (silent) {
      this.pending.length = 0;
      return;
    }
    const feeders = new Set([...this.truth, ...this.dark]);
    for (const feeder of feeders) {
      if (this.truth.has(feeder) !== this.dark.has(feeder)) this.send(tick, feeder, this.truth.has(feeder));
    }
  }

  /** From now on words come later by a draw from 0 to `jitter` [ticks]. */
  jitterBy(jitter: number, random: Random): void {
    this.jitter = jitter;
    this.random = random;
  }

  isBusy(): boolean {
    return this.pending.length > 0;
  }

  isMissed(): boolean {
    return false;
  }

  /** Waits for what events and firmware change alone. */
  waitFor(): void {}

  run(tick: number): number {
    while (this.pending.length > 0 && this.pending[0]!.tick <= tick) {
      const { feeder, lost } = this.pending.shift()!;
      if (lost) this.dark.add(feeder);
      else this.dark.delete(feeder);
    }
    const lost = this.dark.size > 0;
    if (lost !== this.lost) {
      this.lost = lost;
      if (!lost) this.goodSince = tick;
      this.log.note('AC', 'ac-signal', lost ? 'AC loss signalled' : 'AC good signalled');
      if (lost) this.log.begins('ac-told-lost', 'AC', '');
      else this.log.ends('ac-told-lost', 'AC');
      this.onChange(lost, tick);
    }
    return 0;
  }
}
