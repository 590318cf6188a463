/**
 * The ladder of step sizes, all whole ticks: fine after a kink, coarse when nothing happens.
 *
 * How far a step's voltages fall from the straight line through the last two points (`surprise`, second order
 * in the step) tells how smooth the bus is. A step whose surprise is too large is taken again finer; several
 * small ones in a row let the ladder climb. Kicks (kinks of the load, commands that jump, mode changes) send
 * it down before the step that feels them. A command that jumps by little in quiet is followed by damped pairs of steps
 * (`damped-pairs.ts`) on the rung where it stands.
 */
import { DampedPairs } from './damped-pairs.ts';

/** Rungs as multiples of the default step: 0.25, 0.5, 1, 2, 5, 10, 25, 50, 100, 250, 500 µs, 1 ms at 50 µs. */
const multiples = [0.005, 0.01, 0.02, 0.04, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20];

const fineRung = 4;
const finestRung = 0;

/** Surprise allowed, as a share of the nominal voltage: accepted up to `most`, climbing below `calm`. */
const most = 4e-5;
const calm = 2e-5;

/**
 * After an instant jump (a trip) the bus moves less than at an edge of the load, and what matters is small
 * beside it: for a while only this share of the surprise is allowed. Two modules that fail ring the battery shelves'
 * local modes; of the nodes' swing of 80 mV the steps then leave 0.1 %, where a quarter of the surprise left 0.23 %.
 */
const vigil = 0.16;
const vigil_s = 5e-3;

/**
 * Long after the last kick no large swing is under way: this many times the surprise is allowed. With the shorter patience
 * there, pulses take a seventh of the steps away and the recorded training a quarter, and node voltages lie 0.026 % instead of
 * 0.023 % of their swing from steps of an eighth, 0.119 % instead of 0.093 % (root of the mean square). Twice the surprise
 * let a shelf's current overshoot by 2 % for one step when a battery's charging was granted.
 */
const quiet = 1.3;
const quiet_s = 20e-3;

/** Steps on a rung before the next one up may be tried; more on the rungs that only an instant jump leads to. */
const patience = 6;
const calmPatience = 2;
const finestPatience = 20;

/** The same in quiet: what makes steps finer there is small and soon over, a trim by its quantum a hundred times a second. */
const quietPatience = 2;

/** Kinks of the total load or command slope that matter, in rated power per second. */
const kickThreshold_per_s = 60;

/** Commands that jump by less than a kick and more than this, in rated power per second: a trim by its quantum of 10 mV. */
const nudgeThreshold_per_s = 10;

/** Shortest stretch for a pair, in default steps: 250 µs. Where pairs were shorter, a cabinet that starts over and over took half as many steps again. */
const leastPair = 5;

/**
 * What such a jump moves is a surprise by nature: this many times the usual is allowed in its pairs. With four the recorded
 * training takes 3 % fewer steps, and one of them lies 2.0 % of the swing off instead of 1.2 %.
 */
const nudged = 2;

export class Ladder {
  /** Step lengths in ticks, ascending. */
  readonly rungs: readonly number[];
  private level = fineRung;
  private calmSteps = 0;
  private readonly most_V: number;
  private readonly calm_V: number;
  private readonly vigilTicks: number;
  private vigilLeft = 0;
  private readonly quietTicks: number;
  /** Ticks since the last kick. */
  private since = 0;
  private readonly kick_W_per_s: number;
  private readonly nudge_W_per_s: number;
  private readonly pairs = new DampedPairs();
  /** On lower rungs the trapezoidal rule steps a small jump out as it is [ticks]. */
  private readonly shortestPair: number;
  /** Length of the trapezoidal step whose rung the next step takes: its own, but in damped pairs [ticks]. */
  rungTicks = 0;

  /**
   * `defaultTicks`: length of the default step. `refine`: all rungs divided by it, and the allowed surprise by
   * its square, so that the same rungs are chosen (for doubt and convergence).
   */
  constructor(defaultTicks: number, refine: number, nominal_V: number, rated_W: number, tick_s: number) {
    const ticks = multiples.map((m) => Math.max(1, Math.round((m * defaultTicks) / refine)));
    this.rungs = [...new Set(ticks)];
    this.most_V = (most * nominal_V) / (refine * refine);
    this.calm_V = (calm * nominal_V) / (refine * refine);
    this.vigilTicks = Math.round(vigil_s / tick_s);
    this.quietTicks = Math.round(quiet_s / tick_s);
    this.kick_W_per_s = kickThreshold_per_s * rated_W;
    this.nudge_W_per_s = nudgeThreshold_per_s * rated_W;
    this.level = Math.min(fineRung, this.rungs.length - 1);
    this.shortestPair = Math.max(4, Math.round((leastPair * defaultTicks) / refine));
  }

  /** Length of the next step [ticks], at most `left` to the next thing on the agenda. */
  next(left: number): number {
    const rung = this.rungs[this.level]!;
    const most = rung < left ? rung : left;
    const damped = this.pairs.next(this.shortestPair, most, left);
    this.rungTicks = damped > 0 ? this.pairs.rungTicks : most;
    return damped > 0 ? damped : most;
  }

  /** Something kicked the bus: change of power slope [W/s]; Infinity for an instant jump of a current. */
  kick(slope_W_per_s: number): boolean {
    if (!(slope_W_per_s > this.kick_W_per_s)) return false;
    const instant = slope_W_per_s === Number.POSITIVE_INFINITY;
    if (instant) this.vigilLeft = this.vigilTicks;
    const level = instant ? finestRung : fineRung;
    if (level < this.level) this.level = level;
    this.calmSteps = 0;
    this.since = 0;
    this.pairs.drop();
    return true;
  }

  /** Commands of a task jumped: a kick, or in quiet what damped pairs step over. */
  command(slope_W_per_s: number): void {
    if (this.kick(slope_W_per_s)) return;
    const isHigh = this.rungs[this.level]! >= this.shortestPair;
    if (isHigh && this.isQuiet && slope_W_per_s > this.nudge_W_per_s) this.pairs.ask();
  }

  private get isQuiet(): boolean {
    return this.vigilLeft <= 0 && this.since > this.quietTicks;
  }

  /** How many times the usual surprise is allowed just now. */
  private leniency(): number {
    if (this.pairs.isOn) return nudged;
    return this.vigilLeft > 0 ? vigil : this.isQuiet ? quiet : 1;
  }

  /** Is a step of `ticks` with this surprise good enough? If not, the ladder has gone down a rung: take it again. */
  accepts(ticks: number, surprise_V: number): boolean {
    const allowed = this.leniency() * this.most_V;
    if (surprise_V <= allowed || ticks <= this.rungs[0]!) return true;
    while (this.level > 0 && !this.isSmallEnough(this.rungs[this.level]!, ticks, surprise_V, allowed))
      this.level--;
    this.calmSteps = 0;
    this.pairs.drop();
    return false;
  }

  /** Second order: would a step of `rung` have shown less than `allowed` where one of `ticks` showed `surprise_V`? */
  private isSmallEnough(rung: number, ticks: number, surprise_V: number, allowed: number): boolean {
    return rung < ticks && surprise_V * (rung / ticks) * (rung / ticks) <= allowed;
  }

  /** A step of `ticks` was accepted: climb when it has been calm for long enough. */
  done(ticks: number, surprise_V: number): void {
    const calm_V = this.leniency() * this.calm_V;
    this.since += ticks;
    if (this.vigilLeft > 0) this.vigilLeft -= ticks;
    // A damped step tells nothing of how long the next may be.
    if (this.pairs.isOn) {
      this.pairs.done();
      return;
    }
    const rung = this.rungs[this.level]!;
    const up = this.rungs[this.level + 1];
    if (up === undefined) return;
    // Second order: the next rung's surprise is foreseen from this step's, whatever its length.
    const foreseen = surprise_V * (up / ticks) * (up / ticks);
    if (foreseen > 4 * calm_V) {
      this.calmSteps = 0;
      return;
    }
    if (ticks < rung) return;
    this.calmSteps++;
    if (this.calmSteps < this.needed(foreseen < calm_V)) return;
    this.level++;
    this.calmSteps = 0;
  }

  /** Calm steps before the next rung may be tried. */
  private needed(isCalm: boolean): number {
    if (this.level < fineRung) return finestPatience;
    if (this.since > this.quietTicks) return quietPatience;
    return isCalm ? calmPatience : patience;
  }

  /** Clamps cycled at `ticks`: go on in eighths. */
  eighth(ticks: number): void {
    while (this.level > 0 && this.rungs[this.level]! > ticks / 8) this.level--;
    this.calmSteps = 0;
    this.pairs.drop();
  }

  /** Steps of at most `ticks` from here, until it climbs again. */
  atMost(ticks: number): void {
    while (this.level > 0 && this.rungs[this.level]! > ticks) this.level--;
    this.calmSteps = 0;
    this.pairs.drop();
  }
}
