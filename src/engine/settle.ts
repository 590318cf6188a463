/**
 * The settled start: every derivative zero, currents into every node zero, firmware at rest. Newton on the
 * node voltages with each device as a one-port at rest; around it the share loop's mean and the trays' part.
 */
import { Matrix, solve } from 'ml-matrix';
import type { Share, ShareTarget } from '../firmware/share/share.ts';
import type { Smoothing } from '../firmware/tray/smoothing.ts';
import type { Network } from '../network/network.ts';
import { NodalMatrix } from '../nodal/matrix.ts';
import { refuseUnsettled } from './refuse-unsettled.ts';
import type { Stepper } from './stepper.ts';

/** Node voltages at rest are found to this, over nominal. */
const voltageTolerance_ratio = 2e-13;

/** Trims at rest are found to this, over nominal. */
const trimTolerance_ratio = 2e-13;

/** No trim moves by more at once, over nominal: beyond a clamp their slopes are not those here, and far voltages take long to solve. */
const farthestTrim_ratio = 4e-3;

/** No node moves by more at once, over nominal: what is drawn bends on the way. */
const farthestNode_ratio = 0.02;

/** What every node loses to ground at nominal voltage [W]: keeps an island without a device solvable. */
const leak_W = 2.5e-6;

/** Rounds between network and trays: their part follows the bars' losses, which follow their part a little. */
const rounds = 10;

function size(values: readonly number[]): number {
  let most = 0;
  for (const value of values) most = Math.max(most, Math.abs(value));
  return most;
}

export class Settler {
  private readonly network: Network;
  private readonly share: Share;
  private readonly smoothing: Smoothing;
  private readonly stepper: Stepper;
  private readonly matrix: NodalMatrix;
  private readonly residual: Float64Array;
  private readonly change: Float64Array;
  /** Whether the last search for node voltages came to rest. */
  private rests = false;

  constructor(stepper: Stepper, share: Share, smoothing: Smoothing) {
    this.network = stepper.network;
    this.stepper = stepper;
    this.share = share;
    this.smoothing = smoothing;
    this.matrix = new NodalMatrix(this.network.ordering);
    this.residual = new Float64Array(this.network.nodeCount);
    this.change = new Float64Array(this.network.nodeCount);
  }

  /**
   * Settles on the demand at tick 0. `smoothed_W`: where the trays' smoothed load stands; null when it has
   * settled on this same demand. Throws BadInput when no operating point exists.
   */
  settle(smoothed_W: number | null): void {
    const { network, stepper, smoothing } = this;
    const { sleds, trays, sensor } = network;
    stepper.demandAt(sleds.demand1_W, 0);
    sleds.demand0_W.set(sleds.demand1_W);
    stepper.v0.fill(network.scenario.shelves[0]?.values.set_point_V ?? network.scenario.nominal_V);
    sleds.stand(stepper.x0);
    const load = sleds.demand0_W.reduce((a, p) => a + p, 0);
    const n = smoothing.count;
    let w = smoothed_W ?? load;
    const { reference } = smoothing;
    let part = n > 0 ? reference.restingTotal_W(load, w) / n : 0;
    for (let round = 0; round < rounds; round++) {
      for (let k = 0; k < trays.count; k++) this.restTray(k, w, part, n);
      this.solveShared();
      const source = sensor.sources_W(stepper.x0, stepper.v0);
      const own = sensor.trays_W(stepper.x0, stepper.v0);
      if (smoothed_W === null) w = reference.resting_W(source, own);
      else if (n > 0) part = reference.restingTotal_W(source + own, w) / n;
    }
    smoothing.smoothed_W = w;
    reference.total_W = part * n;
    this.fill();
    refuseUnsettled(network, stepper, this.rests);
  }

  /** Tray k at rest: scheduled energy, leakage and standing loss made good, plus its part of the smoothing. */
  private restTray(k: number, w: number, part: number, n: number): void {
    const { stepper, smoothing } = this;
    const { trays } = this.network;
    const c = trays.columns;
    if (!trays.alive[k] || n === 0) {
      trays.stand(stepper.x0, k, 0, (c.voltage_low_V[k]! + c.voltage_high_V[k]!) / 2);
      return;
    }
    const u = this.voltageAt(k, smoothing.charge.scheduled_J(k, w, n));
    const leak = c.leakage_A[k]!;
    const standing = -leak * u - c.esr_ohm[k]! * leak * leak - c.standing_loss_W[k]!;
    const resting = standing / c.efficiency_ratio[k]!;
    smoothing.charge.integral_W[k] = -resting;
    const asked = part + resting;
    const P = c.power_limit_W[k]!;
    const p = asked > P ? P : asked < -P ? -P : asked;
    trays.stand(stepper.x0, k, p, u);
  }

  /** Capacitor voltage at which tray k holds an energy: bisection, the energy rises with the voltage. */
  private voltageAt(k: number, energy: number): number {
    const { trays } = this.network;
    let low = 0;
    let high = 2 * trays.columns.voltage_high_V[k]!;
    for (let pass = 0; pass < 80; pass++) {
      const middle = (low + high) / 2;
      if (trays.energy_J(k, middle) < energy) low = middle;
      else high = middle;
    }
    return (low + high) / 2;
  }

  /** What the share loop aims at: a mean or a highest of the measured per-unit currents of the running shelves. */
  private target(running: readonly number[]): ShareTarget {
    const { stages, shelfCount } = this.network;
    const y = new Float64Array(shelfCount);
    for (const k of running) {
      y[k] = this.share.measured(k, stages.perUnit(k, this.stepper.x0));
    }
    return this.share.target(y, running);
  }

  private runningShelves(): number[] {
    const { stages, shelfCount } = this.network;
    return Array.from({ length: shelfCount }, (_, k) => k).filter((k) => stages.running[k] === 1);
  }

  /** Distance of each running shelf's trim from what the share loop would hold at the present currents [V]. */
  private trimErrors(running: readonly number[]): number[] {
    const { stages } = this.network;
    const { b } = this.target(running);
    const errors: number[] = [];
    for (const k of running) {
      const y = stages.perUnit(k, this.stepper.x0);
      errors.push(stages.trim_V[k]! - this.share.restingTrim_V(k, y, b));
    }
    return errors;
  }

  /**
   * Finds the trims at which the share loop rests: Newton over the running shelves' trims, each residual a
   * solved network. The resting trim is piecewise straight (dead band, clamp), so its slope is taken where it
   * stands and steps are halved until they help.
   */
  private solveShared(): void {
    const { network } = this;
    const { stages } = network;
    const { nominal_V } = network.scenario;
    const running = this.runningShelves();
    const n = running.length;
    this.solveNodes();
    if (n === 0) return;
    let errors = this.trimErrors(running);
    for (let pass = 0; pass < 60; pass++) {
      const worst = size(errors);
      if (worst < trimTolerance_ratio * nominal_V) return;
      const step = solve(this.trimSlopes(running), Matrix.columnVector(errors)).to1DArray();
      const before = running.map((k) => stages.trim_V[k]!);
      for (let part = Math.min(1, (farthestTrim_ratio * nominal_V) / size(step)); ; part /= 2) {
        for (let row = 0; row < n; row++) stages.trim_V[running[row]!] = before[row]! - part * step[row]!;
        this.solveNodes();
        errors = this.trimErrors(running);
        if (size(errors) < worst || part < 1e-3) break;
      }
    }
  }

  /** How the trim errors of the running shelves follow their trims, d(error row)/d(trim column). */
  private trimSlopes(running: readonly number[]): Matrix {
    const { network, share, stepper } = this;
    const { stages } = network;
    const n = running.length;
    const slopes = this.currentSlopes(running);
    const { b, weights, over } = this.target(running);
    const J = Matrix.eye(n, n);
    for (let row = 0; row < n; row++) {
      const k = running[row]!;
      const y = stages.perUnit(k, stepper.x0);
      const d = 1e-7;
      const fall = (share.restingTrim_V(k, y - d, b) - share.restingTrim_V(k, y + d, b)) / (2 * d);
      for (let column = 0; column < n; column++) {
        let follows = 0;
        for (let j = 0; j < n; j++)
          follows += weights[j]! * (1 + share.senseGain[running[j]!]!) * slopes[j]![column]!;
        const moved = follows / over / (1 + share.senseGain[k]!);
        J.set(row, column, J.get(row, column) - fall * (moved - slopes[row]![column]!));
      }
    }
    return J;
  }

  /** How the running shelves' per-unit currents follow their trims, dy_row/du_column, from the factored network. */
  private currentSlopes(running: readonly number[]): number[][] {
    const { network, residual, change, matrix } = this;
    const { stages } = network;
    const slopes = running.map(() => new Array<number>(running.length).fill(0));
    for (let column = 0; column < running.length; column++) {
      const k = running[column]!;
      residual.fill(0);
      residual[stages.node[k]!] = stages.restingSlope_S(k);
      matrix.solve(change, residual);
      for (let row = 0; row < running.length; row++) {
        const j = running[row]!;
        const own = j === k ? 1 : 0;
        slopes[row]![column] =
          (stages.restingSlope_S(j) * (own - change[stages.node[j]!]!)) / stages.columns.rated_A[j]!;
      }
    }
    return slopes;
  }

  /** Newton on the node voltages with the trims held; it may end without having come to rest. */
  private solveNodes(): void {
    const { network, stepper, residual, change, matrix } = this;
    const { x0, v0 } = stepper;
    const { nominal_V } = network.scenario;
    const farthest_V = farthestNode_ratio * nominal_V;
    const leak_S = leak_W / (nominal_V * nominal_V);
    this.rests = false;
    for (let pass = 0; pass < 200; pass++) {
      matrix.clear();
      for (let n = 0; n < v0.length; n++) {
        matrix.addToGround(n, leak_S);
        residual[n] = -leak_S * v0[n]!;
      }
      for (const device of network.devices) device.balance(matrix, residual, x0, v0);
      matrix.begin();
      matrix.factor();
      matrix.solve(change, residual);
      let most = 0;
      for (const d of change) if (Math.abs(d) > most) most = Math.abs(d);
      const damp = most > farthest_V ? farthest_V / most : 1;
      for (let n = 0; n < v0.length; n++) v0[n]! += damp * change[n]!;
      if (most < voltageTolerance_ratio * nominal_V) {
        // What is no number passes every comparison with the largest change.
        this.rests = v0.every(Number.isFinite);
        return;
      }
    }
  }

  /** Every remaining state at the voltages and currents found; the share loop begins with the trims of those that run. */
  private fill(): void {
    const { network, stepper, share } = this;
    const { stages, shelfCount, devices } = network;
    for (const device of devices) device.rest(stepper.x0, stepper.v0);
    for (let k = 0; k < shelfCount; k++) share.trim_V[k] = stages.running[k] ? stages.trim_V[k]! : 0;
  }
}
