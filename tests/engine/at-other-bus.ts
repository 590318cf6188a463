/**
 * A scenario on a bus of k times the voltage, of the same powers and times: what stands on the bus by the exponents of its
 * parameters' tables, bars as any impedance. Trays' capacitors, packs and bulks stand behind converters and stay.
 */
import type { BusExponent } from '../../src/scenario/parameter.ts';
import { fieldOf, type ParameterSpec } from '../../src/scenario/parameter.ts';
import type { Scenario } from '../../src/scenario/scenario.ts';
import { firmwareTasks, unitTables } from '../../src/scenario/tables.ts';

type Table = Readonly<Record<string, ParameterSpec>>;
type Numbers = Readonly<Record<string, number>>;

const impedance: Readonly<Record<string, BusExponent>> = {
  resistance_ohm: 2,
  inductance_H: 2,
  joint_resistance_ohm: 2,
  rated_current_A: -1,
  capacitance_F: -2,
  esr_ohm: 2,
};

export function atOtherBus(scenario: Scenario, k: number): Scenario {
  const scaled = <V>(values: V, exponents: Readonly<Record<string, BusExponent | undefined>>): V =>
    Object.fromEntries(
      Object.entries(values as Numbers).map(([name, value]) => [
        name,
        exponents[name] === undefined ? value : value * k ** exponents[name],
      ]),
    ) as V;
  const exponentsOf = (table: Table): Readonly<Record<string, BusExponent | undefined>> =>
    Object.fromEntries(Object.entries(table).map(([key, spec]) => [fieldOf(key, spec), spec.bus]));
  const units = <U extends { readonly values: unknown }>(list: readonly U[], table: Table): U[] =>
    list.map((unit) => ({ ...unit, values: scaled(unit.values, exponentsOf(table)) }));
  const { bars, firmware } = scenario;
  const bar = <B>(of: B): B => scaled(of, impedance);
  return {
    ...scenario,
    nominal_V: k * scenario.nominal_V,
    bars: {
      ...bars,
      segment: bar(bars.segment),
      rackSegment: bar(bars.rackSegment),
      contact: bar(bars.contact),
      rackNode: bar(bars.rackNode),
      tie: bars.tie === null ? null : bar(bars.tie),
      links: bars.links.map(bar),
    },
    shelves: units(scenario.shelves, unitTables.shelves),
    trays: units(scenario.trays, unitTables.trays),
    banks: units(scenario.banks, unitTables.banks),
    batteries: units(scenario.batteries, unitTables.batteries),
    sleds: units(scenario.sleds, unitTables.sleds),
    firmware: {
      ...firmware,
      share: scaled(firmware.share, exponentsOf(firmwareTasks.share)),
      handover: scaled(firmware.handover, exponentsOf(firmwareTasks.handover)),
    },
    events: scenario.events.map((event) =>
      event.what === 'sled-short' || event.what === 'bank-short'
        ? { ...event, amount: event.amount === null ? null : event.amount * k * k }
        : event,
    ),
  };
}
