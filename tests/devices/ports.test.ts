/**
 * Ports: each senses the state, the node or the command that its name says, and a jump moves that and nothing else. The
 * place is taken from the kind's own list of states; every state and voltage holds a number of its own. Exact.
 */
import { describe, expect, it } from 'vitest';
import type { Device } from '../../src/devices/device.ts';
import { type Ports, portsOf } from '../../src/devices/ports.ts';
import { assemble, type Network } from '../../src/network/network.ts';
import { shippedWith } from '../engine/runs.ts';

interface Bench {
  readonly network: Network;
  readonly ports: Ports;
  readonly x: Float64Array;
  readonly v: Float64Array;
  restamps: number;
  /** Place of a state of unit k. */
  at(device: Device, state: string, k: number): number;
  /** Places of x and v whose number `act` changes. */
  moved(act: () => void): { readonly x: number[]; readonly v: number[] };
}

const scenario = shippedWith('ac-loss-and-return');

function bench(): Bench {
  const network = assemble(scenario);
  const x = Float64Array.from({ length: network.stateCount }, (_, k) => 1000 + k);
  const v = Float64Array.from({ length: network.nodeCount }, (_, k) => 40 + k / 16);
  const made: Bench = {
    network,
    ports: portsOf(network, {
      x,
      v,
      restamp: () => {
        made.restamps++;
      },
    }),
    x,
    v,
    restamps: 0,
    at(device, state, k) {
      const s = device.states.indexOf(state);
      expect(s).toBeGreaterThanOrEqual(0);
      return device.offset + s * device.count + k;
    },
    moved(act) {
      const before = { x: x.slice(), v: v.slice() };
      act();
      const places = (now: Float64Array, was: Float64Array): number[] =>
        [...now.keys()].filter((k) => now[k] !== was[k]);
      return { x: places(x, before.x), v: places(v, before.v) };
    },
  };
  return made;
}

describe('sensing', () => {
  it('reads the states of shelves and of battery shelves, each counted from 0', () => {
    const { network, ports, x, v, at } = bench();
    const { stages, intakes, packs } = network;
    expect(ports.shelves.names).toEqual(intakes.names);
    expect(ports.batteries.names).toEqual(packs.names);
    expect(ports.shelves.current_A(2)).toBe(x[at(stages, 'current_A', 2)]);
    expect(ports.batteries.current_A(1)).toBe(x[at(stages, 'current_A', intakes.count + 1)]);
    expect(ports.batteries.output_V(1)).toBe(v[stages.node[intakes.count + 1]!]);
    expect(ports.intakes.bulk_V(3)).toBe(x[at(intakes, 'bulk_V', 3)]);
    expect(ports.packs.charge_ratio(1)).toBe(x[at(packs, 'charge_ratio', 1)]);
    expect(ports.packs.temperature_degC(1)).toBe(x[at(packs, 'temperature_degC', 1)]);
  });

  it('reads trays, their filter, sleds and bars', () => {
    const { network, ports, x, v, at } = bench();
    const { trays, sensor, sleds, bars } = network;
    expect(ports.trays.capacitor_V(4)).toBe(x[at(trays, 'capacitor_V', 4)]);
    expect(ports.trays.bus_V(4)).toBe(v[trays.node[4]!]);
    expect(ports.sensor.sources_W()).toBe(x[at(sensor, 'sources_W', 0)]);
    expect(ports.sensor.trays_W()).toBe(x[at(sensor, 'trays_W', 0)]);
    expect(ports.sleds.input_V(5)).toBe(v[sleds.node[5]!]);
    expect(ports.bars.current_A(6)).toBe(x[at(bars, 'current_A', 6)]);
    expect(ports.bars.across_V(6)).toBe(v[bars.from[6]!]! - v[bars.to[6]!]!);
  });

  it('looks at another moment where one is named', () => {
    const { network, ports, at } = bench();
    const end = { x: new Float64Array(network.stateCount), v: new Float64Array(network.nodeCount) };
    end.x[at(network.intakes, 'bulk_V', 1)] = 7;
    end.v[network.sleds.node[1]!] = 8;
    expect(ports.intakes.bulk_V(1, end)).toBe(7);
    expect(ports.sleds.input_V(1, end)).toBe(8);
  });

  it('a shelf has walked in when its ramp stands at its limit', () => {
    const { network, ports, x, at } = bench();
    const ramp = at(network.intakes, 'walk_in_W', 2);
    x[ramp] = ports.intakes.limit_W(2);
    expect(ports.intakes.hasWalkedIn(2)).toBe(true);
    x[ramp] = ports.intakes.limit_W(2) * (1 - 1e-12);
    expect(ports.intakes.hasWalkedIn(2)).toBe(false);
  });
});

describe('jumps', () => {
  it('of a walk-in move its ramp alone', () => {
    const { network, ports, moved, at } = bench();
    const { x, v } = moved(() => ports.intakes.resetWalkIn(2));
    expect(x).toEqual([at(network.intakes, 'walk_in_W', 2)]);
    expect(v).toEqual([]);
  });

  it('of a replaced sled move its power and its node alone', () => {
    const { network, ports, moved, at } = bench();
    const { x, v } = moved(() => ports.sleds.replace(3));
    expect(x).toEqual([at(network.sleds, 'power_W', 3)]);
    expect(v).toEqual([network.sleds.node[3]]);
  });

  it('of a replaced capacitor give back what it held, C u²/2', () => {
    const { network, ports, moved, at, x } = bench();
    const place = at(network.capacitors, 'voltage_V', 1);
    const held_J = (network.capacitors.capacitance_F[1]! * x[place]! * x[place]!) / 2;
    let given_J = 0;
    const { x: places } = moved(() => {
      given_J = ports.capacitors.replace(1);
    });
    expect(places).toEqual([place]);
    expect(given_J).toBe(held_J);
  });

  it('of a shelf that loses half its modules halve loop memory, input power and ramp, and book half its bulk', () => {
    const { network, ports, moved, at, x } = bench();
    const { stages, intakes } = network;
    const bulk_F = intakes.columns.bulk_F[1]!;
    let removed_J = 0;
    const { x: places } = moved(() => {
      ports.shelves.resize(1, 0.5, 1);
      removed_J = ports.intakes.resize(1, 0.5, 1);
    });
    const expected = [
      at(stages, 'integrator_A', 1),
      at(stages, 'droop_filter_A', 1),
      at(intakes, 'integrator_W', 1),
      at(intakes, 'power_W', 1),
      at(intakes, 'walk_in_W', 1),
    ];
    expect(places).toEqual(expected.sort((a, b) => a - b));
    for (const place of expected) expect(x[place]).toBe((1000 + place) / 2);
    const bulk_V = x[at(intakes, 'bulk_V', 1)]!;
    expect(removed_J / ((bulk_F * bulk_V * bulk_V) / 4)).toBeCloseTo(1, 12);
  });

  it('of a bar move its current; a command to it makes what was prepared stale', () => {
    const made = bench();
    const { network, ports, moved, at } = made;
    expect(moved(() => ports.bars.jump(2, 9)).x).toEqual([at(network.bars, 'current_A', 2)]);
    expect(made.restamps).toBe(0);
    ports.bars.command(2, 1e-3, true);
    expect(made.restamps).toBe(1);
    expect(ports.bars.isOpen(2)).toBe(true);
    expect(ports.bars.resistance_ohm(2)).toBe(1e-3);
  });
});

describe('commands', () => {
  it('reach the stage of the battery shelf they name', () => {
    const { network, ports } = bench();
    const { stages, packs } = network;
    const stage = packs.firstStage + 1;
    ports.batteries.run(1, true);
    ports.batteries.commandSetPoint(1, 51.5);
    ports.batteries.commandResting(1, -20);
    expect([stages.running[stage], stages.setPoint_V[stage], stages.rest_A[stage]]).toEqual([1, 51.5, -20]);
    const { target, place } = ports.batteries.trimCommand(1);
    ports.batteries.commandTrim(1, 0.125);
    expect(target[place]).toBe(0.125);
    expect(stages.trim_V[stage]).toBe(0.125);
  });

  it('of a tray kick by their change over its lag', () => {
    const { network, ports } = bench();
    ports.trays.command(2, 3000);
    expect(ports.trays.command(2, 1000)).toBe(2000 / network.trays.columns.power_lag_s[2]!);
    ports.trays.takeOut(2);
    expect([ports.trays.isAlive(2), network.trays.command_W[2]]).toEqual([false, 0]);
  });
});
