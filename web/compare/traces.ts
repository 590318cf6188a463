/** What two wakes are compared by: the band of the bus, the AC power, the charge of the trays; and what the two are called. */
import { withUnit } from '../numbers.ts';
import { envelopeOf, type Record } from '../record.ts';
import type { Band } from '../series.ts';

export interface SideWords {
  /** Begins the ids of panels: a page may hold the same traces twice. */
  readonly room: string;
  readonly before: string;
  readonly after: string;
}

export interface Trace {
  readonly id: string;
  readonly title: string;
  readonly unit: string;
  /** Name of what is taken from it, with the unit. */
  readonly quantity: string;
  readonly of: (record: Record) => Band | null;
}

/** A node below this is no part of the bus [V]: its contact is open. */
const dead_V = 1;

export const traces: readonly Trace[] = [
  {
    id: 'bus',
    title: 'Bus voltage, lowest to highest node',
    unit: 'V',
    quantity: 'bus_voltage_V',
    of: (record) =>
      envelopeOf(
        record,
        record.ofKind('node-voltage').map(({ id }) => id),
        dead_V,
      ),
  },
  {
    id: 'ac',
    title: 'AC input',
    unit: 'W',
    quantity: 'ac_power_W',
    of: (record) => record.series('total.ac_power_W'),
  },
  {
    id: 'trays',
    title: 'Trays, state of charge, lowest to highest',
    unit: 'ratio',
    quantity: 'tray_charge_ratio',
    of: (record) =>
      envelopeOf(
        record,
        record.ofKind('tray-charge').map(({ id }) => id),
      ),
  },
];

/** Smallest and largest value in a bucket, as one number where they read alike. */
export function between({ min, max }: Band, bucket: number, unit: string): string {
  const [low, high] = [withUnit(min[bucket], unit), withUnit(max[bucket], unit)];
  return low === high ? low : `${low} to ${high}`;
}
