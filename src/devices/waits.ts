/**
 * What somebody outside the devices waits for: bounds of shelves, battery shelves, bulks and the lowest node, tested at the
 * end of every step. Within all of them nobody needs to be asked; beyond one, somebody may have to act.
 */
import type { Int } from '../base/int.ts';
import type { Intakes } from './intake/intake.ts';
import { type Stages, stageMode } from './stage/stage.ts';
import type { Supplies } from './supply/supply.ts';

export class Waits {
  private readonly stages: Stages;
  private readonly intakes: Intakes;
  private readonly supplies: Supplies;
  private readonly bulkCount: Int;
  private readonly stageCount: Int;
  /** Lowest node voltage, one value [V]. */
  private readonly lowest_V: Float64Array;
  /** Of each shelf's bulk. */
  private readonly bulkLow_V: Float64Array;
  private readonly bulkHigh_V: Float64Array;
  /** Of each line that gives way. */
  private readonly lineLow_V: Float64Array;
  /** Of each output stage, those of the battery shelves behind those of the shelves. */
  private readonly outputLow_V: Float64Array;
  private readonly outputHigh_V: Float64Array;
  private readonly currentLow_A: Float64Array;
  private readonly currentHigh_A: Float64Array;
  private readonly powerHigh_W: Float64Array;
  /** 1 where a stage at its current limit counts. */
  private readonly limit: Uint8Array;
  /** 1 where no bound says it: ask at every step, one value. */
  private readonly asksAlways: Uint8Array;

  constructor(stages: Stages, intakes: Intakes, supplies: Supplies) {
    this.stages = stages;
    this.intakes = intakes;
    this.supplies = supplies;
    this.bulkCount = intakes.count;
    this.stageCount = stages.count;
    this.lowest_V = new Float64Array(1);
    this.bulkLow_V = new Float64Array(intakes.count);
    this.bulkHigh_V = new Float64Array(intakes.count);
    this.lineLow_V = new Float64Array(supplies.count);
    this.outputLow_V = new Float64Array(stages.count);
    this.outputHigh_V = new Float64Array(stages.count);
    this.currentLow_A = new Float64Array(stages.count);
    this.currentHigh_A = new Float64Array(stages.count);
    this.powerHigh_W = new Float64Array(stages.count);
    this.limit = new Uint8Array(stages.count);
    this.asksAlways = new Uint8Array(1);
  }

  /** Nobody waits for anything. */
  clear(): void {
    this.lowest_V.fill(Number.NEGATIVE_INFINITY);
    for (const low of [this.bulkLow_V, this.lineLow_V, this.outputLow_V, this.currentLow_A])
      low.fill(Number.NEGATIVE_INFINITY);
    for (const high of [this.bulkHigh_V, this.outputHigh_V, this.currentHigh_A, this.powerHigh_W])
      high.fill(Number.POSITIVE_INFINITY);
    this.limit.fill(0);
    this.asksAlways.fill(0);
  }

  always(): void {
    this.asksAlways[0] = 1;
  }

  /** Any node below `v`. */
  nodeBelow(v: number): void {
    raise(this.lowest_V, 0, v);
  }

  bulkBelow(k: number, v: number): void {
    raise(this.bulkLow_V, k, v);
  }

  bulkAbove(k: number, v: number): void {
    lower(this.bulkHigh_V, k, v);
  }

  /** Line voltage of supply f; more than it carries counts as that. */
  lineBelow(f: number, v: number): void {
    raise(this.lineLow_V, f, v);
  }

  currentBelow(k: number, i: number): void {
    raise(this.currentLow_A, k, i);
  }

  currentAbove(k: number, i: number): void {
    lower(this.currentHigh_A, k, i);
  }

  powerAbove(k: number, p: number): void {
    lower(this.powerHigh_W, k, p);
  }

  outputAbove(k: number, v: number): void {
    lower(this.outputHigh_V, k, v);
  }

  /** Output voltage of battery shelf k. */
  batteryBelow(k: number, v: number): void {
    raise(this.outputLow_V, this.bulkCount + k, v);
  }

  atLimit(k: number): void {
    this.limit[k] = 1;
  }

  /** Something lies beyond a bound at states x and node voltages v, the lowest of which is `lowest_V`. */
  isDue(x: Float64Array, v: Float64Array, lowest_V: number): boolean {
    if (this.asksAlways[0] === 1 || lowest_V < this.lowest_V[0]!) return true;
    return this.isBulkDue(x) || this.isLineDue() || this.isStageDue(x, v);
  }

  private isBulkDue(x: Float64Array): boolean {
    const { bulkCount, bulkLow_V, bulkHigh_V } = this;
    const { offset } = this.intakes;
    for (let k = 0; k < bulkCount; k++) {
      const bulk_V = x[offset + k]!;
      if (bulk_V < bulkLow_V[k]! || bulk_V > bulkHigh_V[k]!) return true;
    }
    return false;
  }

  /** Of the states last looked at, which are those of the step's end. */
  private isLineDue(): boolean {
    const { supplies, lineLow_V } = this;
    const { count, line_V, beyond } = supplies;
    for (let f = 0; f < count; f++) if (line_V[f]! < lineLow_V[f]! || beyond[f] === 1) return true;
    return false;
  }

  private isStageDue(x: Float64Array, v: Float64Array): boolean {
    const { stageCount, outputLow_V, outputHigh_V, currentLow_A, currentHigh_A, powerHigh_W, limit } = this;
    const { node, mode, offset } = this.stages;
    for (let k = 0; k < stageCount; k++) {
      const i = x[offset + k]!;
      const at = v[node[k]!]!;
      if (i < currentLow_A[k]! || i > currentHigh_A[k]! || at < outputLow_V[k]! || at > outputHigh_V[k]!)
        return true;
      if (i * at > powerHigh_W[k]!) return true;
      if (limit[k] === 1 && mode[k] === stageMode.limit) return true;
    }
    return false;
  }
}

function raise(column: Float64Array, k: number, value: number): void {
  if (value > column[k]!) column[k] = value;
}

function lower(column: Float64Array, k: number, value: number): void {
  if (value < column[k]!) column[k] = value;
}
