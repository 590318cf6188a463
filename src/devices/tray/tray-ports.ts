/** What firmware senses of trays and commands them. */
import type { Int } from '../../base/int.ts';
import type { Plant } from '../plant.ts';
import type { Trays } from './tray.ts';
import type { TrayRatings } from './tray-ratings.ts';

export class TrayPorts {
  readonly count: Int;
  readonly names: readonly string[];
  readonly ratings: TrayRatings;
  /** 1 for a tray whose converter is alive. */
  readonly alive: Uint8Array;
  private readonly trays: Trays;
  private readonly plant: Plant;

  constructor(trays: Trays, plant: Plant) {
    this.count = trays.count;
    this.names = trays.names;
    this.ratings = trays.ratings;
    this.alive = trays.alive;
    this.trays = trays;
    this.plant = plant;
  }

  /** Voltage of its capacitor [V]. */
  capacitor_V(k: number): number {
    return this.plant.x[this.trays.offset + this.trays.count + k]!;
  }

  /** Bus voltage at it [V]. */
  bus_V(k: number): number {
    return this.plant.v[this.trays.node[k]!]!;
  }

  /** Writes the capacitors' voltages from place `at` on, and behind them those of the bus at each [V]. */
  sampleVoltages(out: Float64Array, at: number): void {
    const { count, trays, plant } = this;
    const { x, v } = plant;
    const { node } = trays;
    const first = trays.offset + count;
    for (let k = 0; k < count; k++) {
      out[at + k] = x[first + k]!;
      out[at + count + k] = v[node[k]!]!;
    }
  }

  /** Power that reaches the bus [W]. */
  power_W(k: number): number {
    return this.trays.delivered_W(k, this.plant.x[this.trays.offset + k]!, this.bus_V(k));
  }

  /** Power that bus power p takes from the capacitor terminals [W]. */
  capacitorPower_W(k: number, p: number): number {
    return this.trays.capacitorPower_W(k, p);
  }

  /** Its bank has no operating point for what it gives. */
  isInfeasible(k: number): boolean {
    return this.trays.isInfeasible(k, this.power_W(k), this.capacitor_V(k));
  }

  /** The first tray from `from` on that is alive and infeasible or beyond its bounds of the capacitor's voltage; −1: none. */
  firstAstray(from: Int, lowest_V: Float64Array, highest_V: Float64Array): Int {
    const { count, trays, plant } = this;
    const { x, v } = plant;
    const { alive, node, offset } = trays;
    for (let k: Int = from; k < count; k++) {
      if (alive[k] === 0) continue;
      const u = x[offset + count + k]!;
      if (u < lowest_V[k]! || u > highest_V[k]!) return k;
      if (trays.isInfeasible(k, trays.delivered_W(k, x[offset + k]!, v[node[k]!]!), u)) return k;
    }
    return -1;
  }

  isAlive(k: number): boolean {
    return this.trays.alive[k] === 1;
  }

  /** Power into the bus [W]. Returns how hard the change kicks the bus [W/s]. */
  command(k: Int, power_W: number): number {
    const { command_W, columns } = this.trays;
    const kick = Math.abs(power_W - command_W[k]!) / columns.power_lag_s[k]!;
    command_W[k] = power_W;
    return kick;
  }

  /** Its converter stops for good. */
  takeOut(k: number): void {
    this.trays.alive[k] = 0;
    this.trays.command_W[k] = 0;
  }

  /** Where its power command stands, for who differentiates over it. */
  powerCommand(k: number): { readonly target: Float64Array; readonly place: number } {
    return { target: this.trays.command_W, place: k };
  }
}
