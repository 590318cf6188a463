/** What each unit of the cabinet shows: how full its box is, what it gives, and its words on focus. */
import type { Scenario } from '../../src/scenario/scenario.ts';
import { withUnit } from '../numbers.ts';
import type { Record } from '../record.ts';

export type Kind = 'shelf' | 'tray' | 'bank' | 'battery' | 'sled';

export interface Face {
  readonly id: string;
  readonly kind: Kind;
  /** Name and what it is. */
  readonly name: string;
  /** 0..1: current over rated, state of charge, power over peak. */
  fill(bucket: number): number;
  /** Above 0: gives to the bus; below: takes from it. For the arrow. */
  gives(bucket: number): number;
  /** Short, under the box. */
  short(bucket: number): string;
  /** Whole sentence for hover and focus. */
  words(bucket: number): string;
}

/** Faces of all units by id. */
export function facesOf(scenario: Scenario, record: Record): ReadonlyMap<string, Face> {
  const faces = new Map<string, Face>();
  const at = (id: string, bucket: number): number => record.mean(id, bucket);
  const power = (id: string, bucket: number): number => {
    const own = at(`${id}.power_W`, bucket);
    return Number.isNaN(own) ? at(`${id}.current_A`, bucket) * scenario.nominal_V : own;
  };
  for (const { id, values, feeder } of scenario.shelves) {
    const rated_A = (values.module_count_count * values.module_power_W) / values.rated_voltage_V;
    const current = (b: number): number => at(`${id}.current_A`, b);
    faces.set(id, {
      id,
      kind: 'shelf',
      name: `${id}, rectifier shelf on ${feeder}`,
      fill: (b) => current(b) / rated_A,
      gives: current,
      short: (b) => withUnit(current(b), 'A'),
      words: (b) =>
        `${id}, rectifier shelf on ${feeder}: ${withUnit(current(b), 'A')} of ${withUnit(rated_A, 'A')} rated, AC ${withUnit(at(`${id}.ac_power_W`, b), 'W')}`,
    });
  }
  for (const { id, values } of scenario.trays) {
    faces.set(id, {
      id,
      kind: 'tray',
      name: `${id}, capacitor tray`,
      fill: (b) => at(`${id}.charge_ratio`, b),
      gives: (b) => power(id, b),
      short: (b) => withUnit(power(id, b), 'W'),
      words: (b) =>
        `${id}, capacitor tray: ${gives(power(id, b))} of ${withUnit(values.power_limit_W, 'W')}, ${withUnit(at(`${id}.charge_ratio`, b), 'ratio')} charged`,
    });
  }
  for (const { id, values } of scenario.batteries) {
    const current = (b: number): number => at(`${id}.current_A`, b);
    faces.set(id, {
      id,
      kind: 'battery',
      name: `${id}, battery shelf`,
      fill: (b) => at(`${id}.charge_ratio`, b),
      gives: (b) => (Math.abs(current(b)) < 0.5 ? 0 : current(b)),
      short: (b) => (Math.abs(current(b)) < 0.5 ? 'asleep' : withUnit(current(b), 'A')),
      words: (b) =>
        `${id}, battery shelf: ${withUnit(current(b), 'A')}, ${withUnit(at(`${id}.charge_ratio`, b), 'ratio')} of ${withUnit(values.energy_J, 'J')}`,
    });
  }
  for (const { id, values } of scenario.banks) {
    const current = (b: number): number => at(`${id}.current_A`, b);
    faces.set(id, {
      id,
      kind: 'bank',
      name: `${id}, capacitor bank of ${(values.capacitance_F * 1e3).toFixed(0)} mF`,
      fill: () => 0,
      gives: (b) => (Math.abs(current(b)) < 0.5 ? 0 : current(b)),
      short: (b) => withUnit(current(b), 'A'),
      words: (b) =>
        `${id}, capacitor bank of ${(values.capacitance_F * 1e3).toFixed(0)} mF: ${withUnit(current(b), 'A')}`,
    });
  }
  for (const { id, values } of scenario.sleds) {
    faces.set(id, {
      id,
      kind: 'sled',
      name: id,
      fill: (b) => at(`${id}.power_W`, b) / values.peak_power_W,
      gives: () => 0,
      short: (b) => withUnit(at(`${id}.power_W`, b), 'W'),
      words: (b) =>
        `${id}: ${withUnit(at(`${id}.power_W`, b), 'W')} of ${withUnit(values.peak_power_W, 'W')} peak`,
    });
  }
  return faces;
}

function gives(power_W: number): string {
  return `${power_W < 0 ? 'takes' : 'gives'} ${withUnit(Math.abs(power_W), 'W')}`;
}
