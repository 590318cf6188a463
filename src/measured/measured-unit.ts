import type { Dimension } from '../base/quantity.ts';
import {
  amperesOf,
  currentUnitIn,
  powerUnitIn,
  voltageUnitIn,
  voltsOf,
  wattsOf,
} from '../tables/cells/power-unit.ts';

/** Channel units that a column may be measured in. */
export type MeasuredUnit = 'V' | 'A' | 'W' | 'ratio';

export const dimensionOf: Readonly<Record<MeasuredUnit, Dimension>> = {
  V: 'voltage',
  A: 'current',
  W: 'power',
  ratio: 'ratio',
};

/** The unit that a channel's name ends with. */
export function unitOfChannel(id: string): MeasuredUnit {
  const unit = /_(V|A|W|ratio)$/.exec(id)?.[1];
  switch (unit) {
    case 'V':
    case 'A':
    case 'W':
    case 'ratio':
      return unit;
    default:
      throw new RangeError(`${id} ends with no unit of a channel`);
  }
}

/** Factor from a column's unit, by its name, to the channel's; null where the name says another quantity. */
export function factorOf(column: string, unit: MeasuredUnit): number | null {
  const volts = voltageUnitIn(column);
  const amperes = currentUnitIn(column);
  const watts = powerUnitIn(column)?.unit ?? null;
  const said = [volts, amperes, watts].filter((word) => word !== null).length > 0;
  switch (unit) {
    case 'V':
      return volts === null ? (said ? null : 1) : voltsOf(volts);
    case 'A':
      return amperes === null ? (said ? null : 1) : amperesOf(amperes);
    case 'W': {
      const factor = watts === null ? (said ? null : 1) : wattsOf(watts);
      return typeof factor === 'number' ? factor : null;
    }
    case 'ratio':
      return said ? null : 1;
  }
}

/** Factor from the unit of a cell to the channel's; null where it is one of another quantity. */
export function unitFactor(cell: string, unit: MeasuredUnit): number | null {
  switch (unit) {
    case 'V':
      return voltsOf(cell);
    case 'A':
      return amperesOf(cell);
    case 'W': {
      const watts = wattsOf(cell);
      return typeof watts === 'number' ? watts : null;
    }
    case 'ratio':
      return null;
  }
}

/** The name without its unit, for comparing with a channel: `A.S1.voltage_mV` is `A.S1.voltage`. */
export function bare(name: string): string {
  return name.trim().replace(/[\s_.]*[([]?(?:[µumk]?[VAW]|ratio|MW)[)\]]?$/, '');
}
