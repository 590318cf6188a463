/**
 * Steps that pass a run of the smoothing. In quiet its samples, every half a millisecond, are what keeps steps short. Its
 * commands are decided on a sample a whole period old, so they are known when the step begins:
 *
 *   start ── one period ── run ── one period ── end
 *
 * The run is taken early. The step goes by the commands that hold at its start and those that hold at its end, each for
 * half of it, as the trapezoidal rule has it; the sample that is due in the middle is taken half way between both ends. A step
 * that is not good enough is taken again up to the run, which then has only to be told: nothing is decided twice.
 */
import type { Log } from '../events/log.ts';
import type { EarlyRuns } from '../firmware/task.ts';
import type { Agenda } from './agenda.ts';
import type { Cabinet } from './cabinet.ts';
import type { Ladder } from './ladder.ts';
import type { Stepper } from './stepper.ts';

export class Leap {
  private readonly early: EarlyRuns;
  private readonly ladder: Ladder;
  private readonly stepper: Stepper;
  private readonly log: Log;
  private readonly period: number;
  /** The run that was taken early [tick], −1 for none, and how hard its commands kick [W/s]. */
  private taken = -1;
  private kick_W_per_s = 0;
  /** The step last asked for passes it. */
  private isOn = false;

  constructor(early: EarlyRuns, { ladder, stepper, log }: Pick<Cabinet, 'ladder' | 'stepper' | 'log'>) {
    this.early = early;
    this.ladder = ladder;
    this.stepper = stepper;
    this.log = log;
    this.period = early.signal.period;
  }

  /**
   * What the task does when its turn comes: a run that was taken early is told now, unless something has come between: AC
   * lost, a tray out. Returns how hard it kicks [W/s].
   */
  run(tick: number): number {
    const { early } = this;
    const isTaken = this.taken === tick;
    this.taken = -1;
    if (!isTaken || !early.stands(tick)) return early.run(tick);
    early.enact();
    return this.kick_W_per_s;
  }

  /** Length of a step from `tick` that passes the next run, 0 where none does [ticks]; `firm`: what no step passes. */
  over(tick: number, agenda: Agenda, firm: number): number {
    const { early, ladder, period } = this;
    const at = tick + period;
    const ticks = 2 * period;
    // One that was asked for and has not landed was not good enough: it is taken again, up to the run.
    if (this.isOn) early.withhold();
    this.isOn = false;
    if (agenda.next !== at || at + period > firm || this.taken === at || !ladder.reaches(ticks)) return 0;
    if (!early.isForeseeable(at)) return 0;
    this.log.tick = at;
    this.kick_W_per_s = early.foresee(at);
    this.log.tick = tick;
    this.taken = at;
    if (ladder.minds(this.kick_W_per_s)) return 0;
    early.lead();
    ladder.pass(ticks);
    this.isOn = true;
    return ticks;
  }

  /** The step is good and everyone has seen it: takes the sample in its middle. */
  land(agenda: Agenda): void {
    if (!this.isOn) return;
    this.isOn = false;
    this.stepper.standHalfWay();
    this.early.signal.sample();
    this.early.enact();
    agenda.pass(this.taken);
    this.taken = -1;
  }
}
