/**
 * Small circuits out of the project's own device kinds, stepped by its own stepper at one fixed step: what
 * textbook cases are tried on. A held node is a capacitor so large that nothing moves it.
 */
import { Banks } from '../../src/devices/bank/bank.ts';
import { Bars } from '../../src/devices/bar/bar.ts';
import { type BranchColumns, Branches } from '../../src/devices/branch/branch.ts';
import { Capacitors } from '../../src/devices/capacitor/capacitor.ts';
import type { Device } from '../../src/devices/device.ts';
import { Intakes } from '../../src/devices/intake/intake.ts';
import type { IntakeColumns } from '../../src/devices/intake/intake-columns.ts';
import { LineRipple } from '../../src/devices/intake/line-ripple.ts';
import { LoadCurve } from '../../src/devices/intake/load-curve.ts';
import { type PackColumns, Packs } from '../../src/devices/pack/pack.ts';
import { Sensor } from '../../src/devices/sensor/sensor.ts';
import { Sleds } from '../../src/devices/sled/sled.ts';
import { Stages } from '../../src/devices/stage/stage.ts';
import type { StageColumns } from '../../src/devices/stage/stage-columns.ts';
import { Supplies } from '../../src/devices/supply/supply.ts';
import { Suppressors } from '../../src/devices/suppressor/suppressor.ts';
import { Trays } from '../../src/devices/tray/tray.ts';
import type { TrayColumns } from '../../src/devices/tray/tray-columns.ts';
import { Stepper } from '../../src/engine/stepper.ts';
import type { Demand } from '../../src/loads/demand.ts';
import { currentsOf } from '../../src/network/currents.ts';
import type { Network } from '../../src/network/network.ts';
import { order } from '../../src/nodal/ordering.ts';

type Row<C> = { readonly [K in Exclude<keyof C, 'names' | 'node'>]: number };

export interface Parts {
  readonly nodes: number;
  /** Nodes held at a voltage. */
  readonly held?: readonly { readonly node: number; readonly voltage_V: number }[];
  readonly bars?: readonly {
    readonly from: number;
    readonly to: number;
    readonly R: number;
    readonly L: number;
    readonly i?: number;
  }[];
  readonly capacitors?: readonly {
    readonly node: number;
    readonly C: number;
    readonly r: number;
    readonly u: number;
  }[];
  readonly banks?: readonly {
    readonly node: number;
    readonly C: number;
    readonly R: number;
    readonly L: number;
    readonly u: number;
    readonly i?: number;
  }[];
  readonly stages?: readonly (Omit<Row<StageColumns>, 'isCommanded'> & {
    readonly node: number;
    readonly setPoint_V: number;
  })[];
  /** Intake k feeds stage k. */
  readonly intakes?: readonly Row<IntakeColumns>[];
  readonly trays?: readonly (Row<TrayColumns> & {
    readonly node: number;
    readonly power: number;
    readonly u: number;
  })[];
  /** A slow branch beside the first tray, or beside the first bank [F, Ω]. */
  readonly trayBranch?: { readonly C: number; readonly R: number; readonly u: number };
  readonly bankBranch?: { readonly C: number; readonly R: number; readonly u: number };
  /** Packs behind the last stages, one each. */
  readonly packs?: readonly (Omit<Row<PackColumns>, 'openCircuit_V'> & {
    /** At the states of charge 0, 0.1, 0.5, 0.9 and 1. */
    readonly openCircuit_V: readonly number[];
  })[];
  /** Constant-power loads. */
  readonly loads?: readonly { readonly node: number; readonly power_W: number }[];
}

/** Held nodes: farads and ohms whose product is one second, so that they bring no fast pole along. */
const held_F = 1e15;

/** Resistance of a capacitor that counts as ideal, over the circuit's own: a drop of that share. */
export const ideal = 1e-8;

function columnsOf<R extends object>(rows: readonly R[], key: string): Float64Array {
  return Float64Array.from(rows, (row) => (row as Record<string, number>)[key]!);
}

/** Columns of a kind from rows: every number of a row becomes a column of its name. */
function columns<C>(rows: readonly object[], keys: readonly string[]): C {
  const out: Record<string, unknown> = { names: rows.map((_, k) => `unit ${k + 1}`) };
  for (const key of keys) out[key] = columnsOf(rows, key);
  return out as C;
}

const stageKeys: readonly (keyof StageColumns)[] = [
  'proportional_gain_A_per_V',
  'integral_gain_A_per_Vs',
  'droop_ohm',
  'droop_filter_time_s',
  'current_lag_s',
  'control_delay_s',
  'slew_limit_A_per_s',
  'rated_A',
  'foldBack_V',
];
const intakeKeys: readonly (keyof IntakeColumns)[] = [
  'bulk_F',
  'bulk_voltage_V',
  'bulk_voltage_min_V',
  'restart_V',
  'bandwidth_rad_per_s',
  'power_lag_s',
  'limit_W',
  'power_limit_ratio',
  'walkIn_W_per_s',
  'walk_in_margin_ratio',
  'dc_loss_fixed_W',
  'dc_loss_linear_V',
  'dc_loss_square_ohm',
  'ac_loss_fixed_W',
  'ac_loss_linear_ratio',
  'ac_loss_square_per_W',
  'lineVoltage_V',
  'currentLimit_A',
  'outputLimit_W',
];
const packKeys: readonly (keyof PackColumns)[] = [
  'charge_C',
  'charge_ratio',
  'efficiency_ratio',
  'resistance_ohm',
  'polarisation_ohm',
  'polarisation_time_s',
  'thermal_resistance_K_per_W',
  'thermal_time_s',
  'ambient_degC',
];
const trayKeys: readonly (keyof TrayColumns)[] = [
  'capacitance_F',
  'fast_F',
  'voltage_slope_ratio',
  'rated_voltage_V',
  'esr_ohm',
  'leakage_A',
  'voltage_low_V',
  'voltage_high_V',
  'power_lag_s',
  'power_slew_W_per_s',
  'efficiency_ratio',
  'standing_loss_W',
  'power_limit_W',
  'bus_current_limit_A',
  'foldBack_V',
  'capacitor_current_limit_A',
  'taper_ratio',
];

export class Circuit {
  readonly network: Network;
  readonly stepper: Stepper;
  readonly step_s: number;
  private tick = 0;

  constructor(parts: Parts, step_s: number) {
    const {
      bars = [],
      banks = [],
      stages = [],
      intakes = [],
      trays = [],
      packs: packRows = [],
      loads = [],
      held = [],
      capacitors = [],
    } = parts;
    const shunts = [
      ...capacitors,
      ...held.map(({ node, voltage_V }) => ({ node, C: held_F, r: 1 / held_F, u: voltage_V })),
    ];
    const nodesOf = (rows: readonly { readonly node: number }[]): Int32Array =>
      Int32Array.from(rows, (row) => row.node);
    let offset = 0;
    const devices: Device[] = [];
    const place = <D extends Device>(device: D): D => {
      devices.push(device);
      offset += device.count * device.states.length;
      return device;
    };
    const names = (rows: readonly unknown[]): string[] => rows.map((_, k) => `unit ${k + 1}`);
    const barKind = place(
      new Bars(
        {
          names: names(bars),
          from: Int32Array.from(bars, (b) => b.from),
          to: Int32Array.from(bars, (b) => b.to),
          resistance_ohm: Float64Array.from(bars, (b) => b.R),
          inductance_H: Float64Array.from(bars, (b) => b.L),
        },
        offset,
      ),
    );
    const capacitorKind = place(
      new Capacitors(
        {
          names: names(shunts),
          node: nodesOf(shunts),
          capacitance_F: Float64Array.from(shunts, (c) => c.C),
          esr_ohm: Float64Array.from(shunts, (c) => c.r),
        },
        offset,
      ),
    );
    const bankKind = place(
      new Banks(
        {
          names: names(banks),
          node: nodesOf(banks),
          capacitance_F: Float64Array.from(banks, (b) => b.C),
          resistance_ohm: Float64Array.from(banks, (b) => b.R),
          inductance_H: Float64Array.from(banks, (b) => b.L),
        },
        offset,
      ),
    );
    const stageKind = place(
      new Stages(
        {
          ...columns<StageColumns>(stages, stageKeys),
          node: nodesOf(stages),
          isCommanded: new Uint8Array(stages.length),
        },
        offset,
      ),
    );
    const still = new LineRipple(
      intakes.map(() => [1, 1, 1]),
      new Float64Array(intakes.length),
      new Float64Array(intakes.length),
    );
    const unity = new LoadCurve(intakes.map(() => [1, 1, 1, 1]));
    const intakeKind = place(
      new Intakes(columns<IntakeColumns>(intakes, intakeKeys), unity, still, stageKind, offset),
    );
    const empty = new Float64Array(0);
    const stiff = new Supplies(
      {
        names: [],
        nominal_V: empty,
        resistance_ohm: empty,
        reactance_ohm: empty,
        impedance_ohm: empty,
        cabinets: empty,
      },
      new Int32Array(intakes.length).fill(-1),
      unity,
      intakeKind,
      offset,
    );
    const trayKind = place(
      new Trays({ ...columns<TrayColumns>(trays, trayKeys), node: nodesOf(trays) }, offset),
    );
    const sledKind = place(
      new Sleds(
        {
          names: names(loads),
          node: nodesOf(loads),
          power_lag_s: Float64Array.from(loads, () => 1e-6),
          constant_power_voltage_V: Float64Array.from(loads, () => 1e-3),
          share_ratio: Float64Array.from(loads, () => 1),
          constant_current_ratio: Float64Array.from(loads, () => 0),
          nominal_V: Float64Array.from(loads, () => 1),
        },
        offset,
      ),
    );
    const packs = place(
      new Packs(
        {
          ...columns<PackColumns>(packRows, packKeys),
          openCircuit_V: Float64Array.from(packRows.flatMap(({ openCircuit_V }) => openCircuit_V)),
        },
        stageKind,
        stages.length - packRows.length,
        offset,
      ),
    );
    const sensor = place(new Sensor(500, stageKind, trayKind, offset));
    const none = new Float64Array();
    const suppressors = place(
      new Suppressors(
        {
          names: [],
          node: new Int32Array(),
          suppressor_voltage_V: none,
          suppressor_resistance_ohm: none,
          suppressor_cooling_s: none,
          suppressor_energy_J: none,
        },
        offset,
      ),
    );
    const branch = (
      one: Parts['trayBranch'],
      beside: number,
      of: Pick<BranchColumns, 'base_F' | 'rise_F_per_V'>,
    ): Branches =>
      new Branches(
        {
          names: names(one === undefined ? [] : [one]),
          host: new Int32Array(1),
          beside: Int32Array.of(beside),
          ...of,
          capacitance_F: Float64Array.of(one?.C ?? 0),
          conductance_S: Float64Array.of(1 / (one?.R ?? 1)),
        },
        offset,
      );
    const { base_F, rise_F_per_V } = trayKind;
    const trayBranches = place(
      branch(parts.trayBranch, trayKind.place('capacitor_V', 0), { base_F, rise_F_per_V }),
    );
    const bankBranches = place(
      branch(parts.bankBranch, bankKind.place('voltage_V', 0), {
        base_F: bankKind.capacitance_F,
        rise_F_per_V: new Float64Array(banks.length),
      }),
    );
    stages.forEach(({ setPoint_V }, k) => {
      stageKind.setPoint_V[k] = setPoint_V;
      stageKind.running[k] = 1;
    });
    this.network = {
      ordering: order(
        parts.nodes,
        bars.map(({ from, to }) => [from, to] as const),
      ),
      bars: barKind,
      capacitors: capacitorKind,
      banks: bankKind,
      stages: stageKind,
      shelfCount: stages.length - packRows.length,
      batteryCount: packRows.length,
      intakes: intakeKind,
      supplies: stiff,
      trays: trayKind,
      sleds: sledKind,
      packs,
      sensor,
      suppressors,
      trayBranches,
      bankBranches,
      devices,
      stateCount: offset,
      nodeCount: parts.nodes,
      currents: currentsOf(
        {
          bars: barKind,
          capacitors: capacitorKind,
          banks: bankKind,
          stages: stageKind,
          trays: trayKind,
          sleds: sledKind,
          suppressors,
        },
        parts.nodes,
      ),
      // What a stepper never looks at.
    } as unknown as Network;
    const demand = {
      profileCount: loads.length,
      profileOf: Int32Array.from(loads, (_, k) => k),
      at: (out: Float64Array) => {
        for (let k = 0; k < loads.length; k++) out[k] = loads[k]!.power_W;
      },
    } as unknown as Demand;
    this.step_s = step_s;
    this.stepper = new Stepper(this.network, demand, step_s, 'plain');
    const { x0 } = this.stepper;
    bars.forEach(({ i = 0 }, k) => {
      x0[barKind.offset + k] = i;
    });
    shunts.forEach(({ u }, k) => {
      x0[capacitorKind.offset + k] = u;
    });
    banks.forEach(({ u, i = 0 }, k) => {
      x0[bankKind.offset + k] = i;
      x0[bankKind.offset + bankKind.count + k] = u;
    });
    intakes.forEach((row, k) => {
      x0[intakeKind.offset + k] = row.bulk_voltage_V;
      x0[intakeKind.offset + 3 * intakeKind.count + k] = row.limit_W;
    });
    packs.rest(x0);
    trays.forEach(({ power, u }, k) => {
      x0[trayKind.offset + k] = power;
      x0[trayKind.offset + trayKind.count + k] = u;
      trayKind.command_W[k] = power;
    });
    if (parts.trayBranch !== undefined) x0[trayBranches.offset] = parts.trayBranch.u;
    if (parts.bankBranch !== undefined) x0[bankBranches.offset] = parts.bankBranch.u;
    loads.forEach(({ power_W }, k) => {
      x0[sledKind.offset + k] = power_W;
      sledKind.demand0_W[k] = power_W;
    });
    this.level();
  }

  /** Node voltages at the start: Kirchhoff's current law at each node, through its capacitors. */
  private level(): void {
    const { capacitors, devices } = this.network;
    const { x0, v0 } = this.stepper;
    const current = new Float64Array(v0.length);
    const conductance = new Float64Array(v0.length);
    for (let k = 0; k < capacitors.count; k++) {
      const node = capacitors.node[k]!;
      v0[node] = x0[capacitors.offset + k]!;
      conductance[node]! += 1 / capacitors.esr_ohm[k]!;
    }
    for (let pass = 0; pass < 3; pass++) {
      current.fill(0);
      for (const device of devices) device.inject(current, x0, v0);
      for (let n = 0; n < v0.length; n++) {
        if (conductance[n]! > 0) v0[n]! += current[n]! / conductance[n]!;
      }
    }
  }

  get time_s(): number {
    return this.tick * this.step_s;
  }

  /** One step, which must be taken as it is. */
  step(): void {
    const outcome = this.stepper.take(this.tick, 1);
    if (outcome !== 'done') throw new Error(`the step from ${this.time_s} s ended ${outcome}`);
    this.stepper.accept();
    this.tick++;
  }

  /** Steps up to `time_s`. */
  reach(time_s: number): void {
    const ticks = Math.round(time_s / this.step_s);
    while (this.tick < ticks) this.step();
  }

  /** State `s` of unit `k` of a kind. */
  state(device: Device, s: number, k = 0): number {
    return this.stepper.x0[device.offset + s * device.count + k]!;
  }

  voltage(node: number): number {
    return this.stepper.v0[node]!;
  }
}
