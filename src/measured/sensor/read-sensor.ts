import { type Dimension, readQuantity } from '../../base/quantity.ts';
import { listed, nearestWords } from '../../scenario/text/nearest.ts';
import { dimensionOf, type MeasuredUnit } from '../measured-unit.ts';
import { type Sensor, type SensorKind, sensorKinds } from './sensor.ts';

/** What is wrong with the words of a sensor, for a problem. */
export interface SensorFault {
  readonly found: string;
  readonly expected: string;
  readonly mend: string;
}

/** Words that may follow the kind, each with the field that it sets. */
const words = {
  low: { field: 'low_corner_Hz', dimension: 'frequency' },
  corner: { field: 'corner_Hz', dimension: 'frequency' },
  averaging: { field: 'averaging_s', dimension: 'time' },
  range: { field: 'range', dimension: null },
  scale: { field: 'scale_ratio', dimension: 'ratio' },
  gain: { field: 'gain_ratio', dimension: 'ratio' },
  bias: { field: 'bias_ratio', dimension: 'ratio' },
} as const satisfies Readonly<
  Record<string, { readonly field: keyof Sensor; readonly dimension: Dimension | null }>
>;

const example = 'rogowski, low 2 Hz, range 600 A';

/** Words of a class: how far readings may be off. A bare number could be meant as a known factor. */
const classWords: readonly string[] = ['gain', 'bias'];

/** A kind and what differs from it, for example `shunt, corner 100 Hz, range 300 A, gain 0.1 %`. `unit`: the channel's. */
export function readSensor(text: string, unit: MeasuredUnit): Sensor | SensorFault {
  const [kind = '', ...parts] = text.split(',').map((part) => part.trim());
  if (!isKind(kind)) {
    const kinds = Object.keys(sensorKinds);
    const [near] = nearestWords(kind, kinds, 1);
    return {
      found: `sensor ${kind}`,
      expected: listed(kinds),
      mend: near === undefined ? `write it like "${example}"` : `did you mean ${near}?`,
    };
  }
  let sensor: Sensor = sensorKinds[kind];
  for (const part of parts) {
    const [word = '', ...rest] = part.split(/\s+/);
    if (!isWord(word)) {
      return {
        found: part,
        expected: `${listed(Object.keys(words))} and a value`,
        mend: `write it like "${example}"`,
      };
    }
    const { field, dimension } = words[word];
    const value = rest.join(' ');
    if (classWords.includes(word) && !value.endsWith('%')) {
      return {
        found: part,
        expected: `a class in per cent: ${word} is how far readings may be off, such as ${word} 1 %`,
        mend: 'for a known factor, which is divided out, write scale 1.01',
      };
    }
    const read = readQuantity(value, dimension ?? dimensionOf[unit]);
    if (!read.ok)
      return {
        found: `${word}: ${read.found}`,
        expected: read.expected,
        mend: read.mend,
      };
    const least =
      field === 'averaging_s' || field === 'gain_ratio' || field === 'bias_ratio' ? 0 : Number.MIN_VALUE;
    // A probe that was turned about has a scale of −1.
    const isScale = field === 'scale_ratio' && read.value !== 0;
    if (!isScale && !(read.value >= least)) {
      return {
        found: part,
        expected: field === 'scale_ratio' ? 'a factor other than zero' : 'a value above zero',
        mend: `leave it out, or write it like "${example}"`,
      };
    }
    sensor = { ...sensor, [field]: read.value };
  }
  return sensor;
}

function isKind(word: string): word is SensorKind {
  return Object.hasOwn(sensorKinds, word);
}

function isWord(word: string): word is keyof typeof words {
  return Object.hasOwn(words, word);
}
