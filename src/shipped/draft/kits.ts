/** What a drafted cabinet is made of at each bus voltage: the models that come with the project, and their sizes. */
import { formatQuantity } from '../../base/quantity.ts';

export type SizedFamily = 'sleds' | 'shelves' | 'trays' | 'banks' | 'batteries';

export interface Kit {
  /** Of the bus that its models are made for. */
  readonly nominal_V: number;
  /** Bus voltages that its models are carried over to. */
  readonly from_V: number;
  readonly to_V: number;
  /** [W; a bank's in F]. */
  readonly sizes: Readonly<Record<SizedFamily, number>>;
  /** Files of the project's models. */
  readonly units: Readonly<Record<SizedFamily, string>>;
  readonly bars: string;
  readonly firmware: string;
}

/** A bus above 56 V is that of a kit: parts there are made for their own step of voltage. */
export const kits: readonly Kit[] = [
  {
    ...{ nominal_V: 50, from_V: 46, to_V: 56 },
    sizes: { sleds: 15e3, shelves: 36e3, trays: 20e3, banks: 80e-3, batteries: 60e3 },
    units: {
      ...{ sleds: 'sled-15kw.yaml', shelves: 'shelf-36kw.yaml', trays: 'tray-20kw.yaml' },
      ...{ banks: 'bank-80mf.yaml', batteries: 'battery-60kw.yaml' },
    },
    bars: 'bars-copper.yaml',
    firmware: 'firmware-reference.yaml',
  },
  {
    ...{ nominal_V: 400, from_V: 400, to_V: 400 },
    sizes: { sleds: 15e3, shelves: 36e3, trays: 20e3, banks: 1.25e-3, batteries: 60e3 },
    units: {
      ...{ sleds: 'sled-15kw-400v.yaml', shelves: 'shelf-36kw-400v.yaml', trays: 'tray-20kw-400v.yaml' },
      ...{ banks: 'bank-400v.yaml', batteries: 'battery-60kw-400v.yaml' },
    },
    bars: 'bars-narrow.yaml',
    firmware: 'firmware-400v.yaml',
  },
  {
    ...{ nominal_V: 800, from_V: 800, to_V: 800 },
    sizes: { sleds: 30e3, shelves: 36e3, trays: 20e3, banks: 312.5e-6, batteries: 60e3 },
    units: {
      ...{ sleds: 'sled-30kw-800v.yaml', shelves: 'shelf-36kw-800v.yaml', trays: 'tray-20kw-800v.yaml' },
      ...{ banks: 'bank-800v.yaml', batteries: 'battery-60kw-800v.yaml' },
    },
    bars: 'bars-narrow.yaml',
    firmware: 'firmware-800v.yaml',
  },
];

/** The kit of a bus; null where there is none. */
export function kitFor(nominal_V: number): Kit | null {
  return kits.find(({ from_V, to_V }) => nominal_V >= from_V && nominal_V <= to_V) ?? null;
}

/** Bus voltages that there are kits for: `46 V to 56 V, 400 V or 800 V`. */
export function kitVoltages(): string {
  const volts = (x: number): string => formatQuantity(x, 'voltage');
  const ranges = kits.map(({ from_V, to_V }) =>
    from_V === to_V ? volts(from_V) : `${volts(from_V)} to ${volts(to_V)}`,
  );
  return `${ranges.slice(0, -1).join(', ')} or ${ranges.at(-1)}`;
}
