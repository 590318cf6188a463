/** Small circuits made by hand from the devices themselves: an ideal source, bars, capacitors, one constant power. */
import { Banks } from '../../src/devices/bank/bank.ts';
import { Bars } from '../../src/devices/bar/bar.ts';
import { Capacitors } from '../../src/devices/capacitor/capacitor.ts';
import type { Device } from '../../src/devices/device.ts';
import { Sleds } from '../../src/devices/sled/sled.ts';
import type { Cabinet } from '../../src/engine/cabinet.ts';

export interface Circuit {
  readonly nodes: number;
  readonly bars: readonly { from: number; to: number; R: number; L: number }[];
  readonly capacitors: readonly { node: number; C: number; r: number }[];
  readonly power?: { node: number; P: number };
  /** Node voltages at rest. */
  readonly v: readonly number[];
}

/** As much of a cabinet as the linear plant looks at. Capacitors stand at their node's voltage, bars carry the power. */
export function plainCabinet({ nodes, bars, capacitors, power, v }: Circuit): Cabinet {
  const devices: Device[] = [];
  let offset = 0;
  const place = <D extends Device>(device: D): D => {
    devices.push(device);
    offset += device.count * device.states.length;
    return device;
  };
  const barKind = place(
    new Bars(
      {
        names: bars.map((_, k) => `bar ${k}`),
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
        names: capacitors.map((_, k) => `capacitor ${k}`),
        node: Int32Array.from(capacitors, (c) => c.node),
        capacitance_F: Float64Array.from(capacitors, (c) => c.C),
        esr_ohm: Float64Array.from(capacitors, (c) => c.r),
      },
      offset,
    ),
  );
  const banks = place(
    new Banks(
      {
        names: [],
        node: new Int32Array(0),
        capacitance_F: new Float64Array(0),
        resistance_ohm: new Float64Array(0),
        inductance_H: new Float64Array(0),
      },
      offset,
    ),
  );
  const sleds = place(
    new Sleds(
      {
        names: power === undefined ? [] : ['load'],
        node: Int32Array.from(power === undefined ? [] : [power.node]),
        power_lag_s: Float64Array.from(power === undefined ? [] : [1e-5]),
        constant_power_voltage_V: Float64Array.from(power === undefined ? [] : [1]),
        share_ratio: Float64Array.from(power === undefined ? [] : [1]),
        constant_current_ratio: Float64Array.from(power === undefined ? [] : [0]),
        nominal_V: Float64Array.from(power === undefined ? [] : [1]),
      },
      offset,
    ),
  );
  const x0 = new Float64Array(offset);
  const v0 = Float64Array.from(v);
  if (power !== undefined) {
    x0[barKind.offset] = power.P / v[power.node]!;
    x0[sleds.offset] = power.P;
    sleds.demand0_W[0] = power.P;
  }
  capacitors.forEach(({ node }, k) => {
    x0[capacitorKind.offset + k] = v[node]!;
  });
  const nothing = { flow: () => {}, foresee: () => {} };
  const network = {
    devices,
    bars: barKind,
    capacitors: capacitorKind,
    banks,
    sleds,
    stages: nothing,
    intakes: nothing,
    stateCount: offset,
    nodeCount: nodes,
  };
  return { network, stepper: { x0, v0 } } as unknown as Cabinet;
}
