import { currentUnitIn, powerUnitIn, voltageUnitIn } from '../cells/power-unit.ts';
import { timeUnitIn } from '../stamps/time-unit.ts';

/** What a column's name says about it. Words only: values are looked at elsewhere. */

const timeWords = new Set(
  'time timestamp timestamps stamp ts date datetime epoch elapsed unix uptime seconds milliseconds zeit uhrzeit zeitstempel datum heure temps fecha hora tempo'.split(
    ' ',
  ),
);
const channelWords = new Set(
  'accelerator device channel gpu card sensor sled node host rail unit module socket board chip slot lane phase source probe rack server'.split(
    ' ',
  ),
);
const namingWords = new Set('id index idx name number no nr uuid serial'.split(' '));

export function wordsOf(name: string): string[] {
  return name
    .replace(/([a-z])([A-Z])/g, '$1 $2')
    .replace(/([A-Za-z])(\d)/g, '$1 $2')
    .toLowerCase()
    .split(/[^a-z0-9µ]+/)
    .filter((word) => word !== '');
}

export function saysTime(name: string): boolean {
  // Most cells are numbers: no word is looked for in those.
  if (!/[a-zµμ]/i.test(name)) return false;
  const unit = timeUnitIn(name);
  const words = wordsOf(unit?.rest ?? name);
  if (words.length === 0) return unit !== null;
  return words.some((word) => timeWords.has(word)) || (words.length === 1 && words[0] === 't');
}

export function saysPower(name: string): boolean {
  return powerUnitIn(name) !== null || wordsOf(name).some((word) => word === 'power' || word === 'watts');
}

export function saysCurrent(name: string): boolean {
  const words = wordsOf(name);
  return currentUnitIn(name) !== null || words.includes('current') || words.includes('amps');
}

export function saysVoltage(name: string): boolean {
  return voltageUnitIn(name) !== null || wordsOf(name).some((word) => word === 'voltage' || word === 'volts');
}

export function saysChannel(name: string): boolean {
  const words = wordsOf(name).filter((word) => !/^\d+$/.test(word));
  return (
    words.some((w) => channelWords.has(w)) && words.every((w) => channelWords.has(w) || namingWords.has(w))
  );
}

/** Whether a name says that its values name things, `index` or `uuid`, without saying what things. */
export function saysNaming(name: string): boolean {
  const words = wordsOf(name).filter((word) => !/^\d+$/.test(word));
  return words.length > 0 && words.every((word) => namingWords.has(word));
}

/** True where names differ in their numbers only, as gpu0_W and gpu1_W do: one quantity of several units. */
export function areNumbered(names: readonly string[]): boolean {
  const stem = (name: string) => name.replace(/\d+/g, '#');
  const first = stem(names[0] ?? '');
  return first.includes('#') && names.every((name) => stem(name) === first);
}
