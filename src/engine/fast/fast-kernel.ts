/**
 * The fast kernel: the compiled step over a network whose columns have moved into one memory. The plain
 * kernel in stepper.ts is the truth; this one gives the same bits (tests/engine/fast.test.ts).
 */
import type { Network } from '../../network/network.ts';
import type { Factor } from '../factor.ts';
import type { Gauge } from '../gauge.ts';
import type { AuditMeter } from '../meters/audit.ts';
import type { Bins } from '../meters/bins.ts';
import type { MeanSquareMeter } from '../meters/mean-square.ts';
import type { StayMeter } from '../meters/stay-meter.ts';
import type { Recorder } from '../recorder.ts';
import { kernelBase64 } from './kernel-bytes.ts';
import { bytesHeld, SharedMemory, wasm } from './shared-memory.ts';

export interface StepVectors {
  readonly x0: Float64Array;
  readonly x1: Float64Array;
  readonly dx0: Float64Array;
  readonly v0: Float64Array;
  readonly v1: Float64Array;
  readonly guess: Float64Array;
  readonly vPast: Float64Array;
  readonly rhs: Float64Array;
  readonly fixed: Float64Array;
}

/** What looks on at every step. */
export interface Lookers {
  readonly gauge: Gauge;
  readonly recorder: Recorder;
  readonly meanSquares: MeanSquareMeter;
  readonly stays: StayMeter;
  readonly audit: AuditMeter;
}

interface Exports {
  readonly step: (rung: number, h: number, along: number, shortest: number) => number;
  readonly bin: (set: number, tick0: number, tick1: number) => number;
  readonly accept: () => void;
  readonly look: (
    ticks: number,
    tick1: number,
    h: number,
    judged: number,
    smoothed: number,
    opening: number,
  ) => number;
  readonly factor: (rung: number) => void;
}

type Entry = readonly [name: string, value: number | { readonly byteOffset: number }];

const directoryAt = 16;
const lookAt = directoryAt + 4 * 134;
const rungEntries = 31;
const resultAt = 960;

function decode(base64: string): Uint8Array {
  const alphabet = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';
  const text = base64.replace(/=+$/, '');
  const bytes = new Uint8Array(Math.floor((text.length * 3) / 4));
  let bits = 0;
  let held = 0;
  let at = 0;
  for (const letter of text) {
    bits = (bits << 6) | alphabet.indexOf(letter);
    held += 6;
    if (held < 8) continue;
    held -= 8;
    bytes[at++] = (bits >> held) & 255;
  }
  return bytes;
}

let compiled: object | null = null;

export class FastKernel {
  readonly call: Exports;
  /** Of the last step: surprise [V], lowest node [V], solves and factorisations so far, highest node [V]. */
  readonly result: Float64Array;
  private readonly shared: SharedMemory;
  private readonly network: Network;

  private constructor(call: Exports, shared: SharedMemory, network: Network) {
    this.call = call;
    this.result = new Float64Array(shared.memory.buffer, resultAt, 5);
    this.shared = shared;
    this.network = network;
  }

  /**
   * Moves the network's columns and the step's vectors into one memory and loads the kernel over it; null where
   * WebAssembly is missing or not allowed. `slots`: rungs that may be prepared at one time.
   */
  static make(network: Network, vectors: StepVectors, slots: number): FastKernel | null {
    if (wasm === undefined) return null;
    try {
      compiled ??= new wasm.Module(decode(kernelBase64));
    } catch {
      return null;
    }
    const perSlot =
      8 * (2 * network.ordering.row.length + 2 * network.nodeCount + 8 * network.stateCount) + 1024;
    const held = [...network.devices, network.intakes.ripple, vectors, network.ordering].reduce(
      (sum, h) => sum + bytesHeld(h),
      0,
    );
    const shared = new SharedMemory(wasm, 2 * held + slots * perSlot + 65_536);
    for (const device of network.devices) shared.adopt(device);
    shared.adopt(network.intakes.ripple);
    shared.adopt(vectors);
    const instance = new wasm.Instance(compiled, { env: { memory: shared.memory } });
    const kernel = new FastKernel(instance.exports as Exports, shared, network);
    kernel.write(directoryAt, kernel.entries(vectors));
    return kernel;
  }

  private write(at: number, entries: readonly Entry[]): void {
    const words = new Uint32Array(this.shared.memory.buffer, at, entries.length);
    entries.forEach(([, value], k) => {
      words[k] = typeof value === 'number' ? value : value.byteOffset;
    });
  }

  /** The directory, in the order of the constants in kernel/step.ts (a test compares the names). */
  entries(vectors: StepVectors): Entry[] {
    const { network, shared } = this;
    const { bars, capacitors, banks, stages, intakes, trays, sleds, packs, sensor, ordering } = network;
    const held = (column: Int32Array): Int32Array => {
      const made = shared.i32(column.length);
      made.set(column);
      return made;
    };
    const corner = shared.f64(1);
    corner[0] = sensor.corner_rad_per_s;
    const s = stages.columns;
    const c = intakes.columns;
    const t = trays.columns;
    const b = packs.columns;
    return [
      ['N_NODE', network.nodeCount],
      ['N_BAR', bars.count],
      ['N_CAP', capacitors.count],
      ['N_BANK', banks.count],
      ['N_STAGE', stages.count],
      ['N_INTAKE', intakes.count],
      ['N_TRAY', trays.count],
      ['N_SLED', sleds.count],
      ['N_PACK', packs.count],
      ['O_BAR', bars.offset],
      ['O_CAP', capacitors.offset],
      ['O_BANK', banks.offset],
      ['O_STAGE', stages.offset],
      ['O_INTAKE', intakes.offset],
      ['O_TRAY', trays.offset],
      ['O_SLED', sleds.offset],
      ['O_PACK', packs.offset],
      ['O_SENSOR', sensor.offset],
      ['FIRST_PACK', packs.firstStage],
      ['N_STATE', network.stateCount],
      ['N_ENTRY', ordering.row.length],
      ['X0', vectors.x0],
      ['X1', vectors.x1],
      ['DX', vectors.dx0],
      ['V0', vectors.v0],
      ['V1', vectors.v1],
      ['GUESS', vectors.guess],
      ['VPAST', vectors.vPast],
      ['RHS', vectors.rhs],
      ['FIXED', vectors.fixed],
      ['NODE', held(ordering.node)],
      ['POSITION', held(ordering.position)],
      ['START', held(ordering.start)],
      ['ROW', held(ordering.row)],
      ['TARGET', held(ordering.target)],
      ['Y', shared.f64(network.nodeCount)],
      ['BAR_FROM', bars.from],
      ['BAR_TO', bars.to],
      ['BAR_DRIVE', bars.drive_per_H],
      ['BAR_DECAY', bars.decay_per_s],
      ['BAR_PAST', bars.past],
      ['BAR_OPEN', bars.open],
      ['CAP_NODE', capacitors.node],
      ['CAP_RATE', capacitors.rate_per_s],
      ['CAP_PAST', capacitors.past],
      ['BANK_NODE', banks.node],
      ['BANK_R', banks.resistance_ohm],
      ['BANK_L', banks.inductance_H],
      ['BANK_C', banks.capacitance_F],
      ['BANK_PAST', banks.past],
      ['BANK_PASTV', banks.pastVoltage],
      ['ST_NODE', stages.node],
      ['ST_KP', s.proportional_A_per_V],
      ['ST_DROOP', s.droop_ohm],
      ['ST_SLEW', s.slew_A_per_s],
      ['ST_SET', stages.setPoint_V],
      ['ST_TRIM', stages.trim_V],
      ['ST_RUN', stages.running],
      ['ST_LIM0', stages.limit0_A],
      ['ST_LIM1', stages.limit1_A],
      ['ST_MODE', stages.mode],
      ['ST_SPAN', stages.span_A],
      ['ST_PERWINDUP', stages.perWindup],
      ['ST_PERLAG', stages.perLag],
      ['ST_PERFILTER', stages.perFilter],
      ['ST_PERDELAY', stages.perDelay],
      ['ST_G', stages.g],
      ['ST_I', stages.iPast],
      ['ST_X', stages.xPast],
      ['ST_F', stages.fPast],
      ['ST_D1', stages.d1Past],
      ['ST_D2', stages.d2Past],
      ['ST_E', stages.ePast],
      ['ST_OUT', stages.iOut],
      ['IN_BULK', c.bulk_F],
      ['IN_REF', c.reference_V],
      ['IN_MIN', c.minimum_V],
      ['IN_LIMIT', c.limit_W],
      ['IN_RAMP', c.walkIn_W_per_s],
      ['IN_MARGIN', c.walkInMargin],
      ['IN_A', c.dcFixed_W],
      ['IN_B', c.dcLinear_V],
      ['IN_C', c.dcSquare_ohm],
      ['IN_ICC', c.currentLimit_A],
      ['IN_PRESENT', intakes.present],
      ['IN_WALKING', intakes.walking],
      ['IN_DC0', intakes.dc0_W],
      ['IN_DC1', intakes.dc1_W],
      ['IN_GAIN', intakes.gain_W_per_V],
      ['IN_PERWINDUP', intakes.perWindup],
      ['IN_PERLAG', intakes.perLag],
      ['TR_NODE', trays.node],
      ['TR_C0', t.capacitance_F],
      ['TR_KV', t.voltageSlope],
      ['TR_VR', t.rated_V],
      ['TR_R', t.esr_ohm],
      ['TR_LEAK', t.leakage_A],
      ['TR_LAG', t.lag_s],
      ['TR_SLEW', t.slew_W_per_s],
      ['TR_ETA', t.efficiency],
      ['TR_P0', t.standing_W],
      ['TR_COMMAND', trays.command_W],
      ['TR_ALIVE', trays.alive],
      ['TR_CURRENT', trays.current_A],
      ['SL_NODE', sleds.node],
      ['SL_LAG', sleds.columns.lag_s],
      ['SL_VCC', sleds.columns.constantPower_V],
      ['SL_D0', sleds.demand0_W],
      ['SL_D1', sleds.demand1_W],
      ['SL_ALLOWED', sleds.allowed],
      ['SL_CARRIED', sleds.carried_S],
      ['SL_CURRENT', sleds.current_A],
      ['PK_Q', b.charge_C],
      ['PK_ETA', b.efficiency],
      ['SENSOR', corner],
      ['IN_CEILING', intakes.ceiling_W],
      ['IN_POWER', c.outputLimit_W],
      ['ST_REST', stages.rest_A],
      ['SL_SHORT', sleds.short_S],
      ['SL_CC', sleds.columns.constantCurrent],
      ['SL_VN', sleds.columns.nominal_V],
      ['PK_OCV', b.openCircuit_V],
      ['PK_R0', b.resistance_ohm],
      ['PK_R1', b.polarisation_ohm],
      ['PK_TAU1', b.polarisation_s],
      ['PK_RTH', b.thermal_K_per_W],
      ['PK_TTH', b.thermal_s],
      ['PK_TA', b.ambient_degC],
      ['IN_M0', intakes.ripple.start],
      ['IN_M1', intakes.ripple.end],
      ['TR_IBUS', t.busCurrent_A],
      ['TR_FOLD', t.foldBack_V],
      ['ST_FOLD', s.foldBack_V],
      ['ST_REST1', stages.rest1_A],
    ];
  }

  /** Moves what looks on into the memory; from here on `look` feeds it. */
  attach(lookers: Lookers): void {
    const { gauge, recorder, meanSquares, stays, audit } = lookers;
    this.shared.adoptFields(gauge, ['values', 'barIndex']);
    this.shared.adoptFields(recorder, ['low', 'high', 'lowTick', 'highTick']);
    this.shared.adoptFields(meanSquares, ['index', 'past', 'sum', 'square']);
    this.shared.adoptFields(stays, ['low', 'high']);
    this.shared.adopt(audit);
    this.write(lookAt, this.lookEntries(lookers));
  }

  /** Moves a set of bins into the memory and returns the address that `bin` wants. */
  attachBins(bins: Bins): number {
    this.shared.adoptFields(bins, ['index', 'a', 'b', 'sum', 'finished', 'end']);
    const at = this.shared.i32(8).byteOffset;
    const { index, width, a, b, sum, finished, end } = bins;
    const entries = [index.length, width, index, a, b, sum, finished, end];
    this.write(
      at,
      entries.map((entry) => ['', entry] as const),
    );
    return at;
  }

  /** The rest of the directory, in the order of the constants in kernel/step.ts. */
  private lookEntries({ gauge, recorder, meanSquares, stays, audit }: Lookers): Entry[] {
    const { bars, intakes, trays } = this.network;
    const c = intakes.columns;
    return [
      ['N_CHANNEL', gauge.values.length],
      ['N_SHOWN', gauge.barIndex.length],
      ['N_MS', meanSquares.index.length],
      ['VALUES', gauge.values],
      ['SHOWN', gauge.barIndex],
      ['IN_ACA', c.acFixed_W],
      ['IN_ACB', c.acLinear],
      ['IN_ACC', c.acSquare_per_W],
      ['IN_LINE', c.lineVoltage_V],
      ['TR_LOWJ', trays.lowest_J],
      ['TR_WINDOWJ', trays.window_J],
      ['REC_LOW', recorder.low],
      ['REC_HIGH', recorder.high],
      ['REC_LOWTICK', recorder.lowTick],
      ['REC_HIGHTICK', recorder.highTick],
      ['MS_INDEX', meanSquares.index],
      ['MS_PAST', meanSquares.past],
      ['MS_SUM', meanSquares.sum],
      ['MS_SQUARE', meanSquares.square],
      ['AU_BAR', audit.bar],
      ['AU_CAP', audit.capacitor],
      ['AU_BANK', audit.bank],
      ['AU_DC', audit.dcStage],
      ['AU_AC', audit.acStage],
      ['AU_INPUT', audit.input],
      ['AU_CONVERTER', audit.converter],
      ['AU_ESR', audit.trayEsr],
      ['AU_LEAK', audit.leakage],
      ['AU_PACK', audit.pack],
      ['AU_LOAD', audit.load],
      ['BAR_R', bars.resistance_ohm],
      ['BAR_L', bars.inductance_H],
      ['AU_TRAYPAST', audit.trayPast],
      ['STAY_LOW', stays.low],
      ['STAY_HIGH', stays.high],
      ['AU_SLEDPAST', audit.sledPast],
      ['AU_PACKPAST', audit.packPast],
    ];
  }

  /** Moves what a new rung holds into the memory and returns the address of its directory. */
  enrol(rung: number, factor: Factor, linear: Uint8Array): number {
    const { bars, capacitors, banks, stages, intakes, trays, sleds, sensor, devices } = this.network;
    for (const device of devices) this.shared.adopt(device);
    const at = this.shared.i32(rungEntries).byteOffset;
    const kappa = this.shared.f64(1);
    kappa[0] = sensor.kappa[rung]!;
    const columns = [bars, capacitors, banks, stages, intakes, trays, sleds].flatMap((d) => d.rungs[rung]!);
    const { diagonal, below, d, l } = factor;
    const entries = [...columns, diagonal, below, d, l, linear, kappa];
    if (entries.length !== rungEntries)
      throw new RangeError(`${entries.length} entries of a rung, not ${rungEntries}`);
    this.write(
      at,
      entries.map((entry) => ['', entry] as const),
    );
    return at;
  }

  /** The sensor's coefficient is a number of its own, not a column: kept up to date when a rung is made anew. */
  renew(at: number, rung: number): void {
    const words = new Uint32Array(this.shared.memory.buffer, at, rungEntries);
    new Float64Array(this.shared.memory.buffer, words[rungEntries - 1]!, 1)[0] =
      this.network.sensor.kappa[rung]!;
  }

  /** A factor and its flags of linear stages, in this memory. */
  adopt(...holders: object[]): void {
    for (const holder of holders) this.shared.adopt(holder);
  }

  u8(count: number): Uint8Array {
    return this.shared.u8(count);
  }
}
