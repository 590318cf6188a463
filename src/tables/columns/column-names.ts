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
  if (powerUnitIn(name) !== null) return true;
  const words = wordsOf(name);
  return (
    words.some((word) => word === 'power' || word === 'watts') && !isPowerFactor(name) && !saysState(words)
  );
}

/** `power_state` and its like hold no watts. */
function saysState(words: readonly string[]): boolean {
  return ['state', 'status', 'mode', 'flag', 'good', 'cycles'].includes(words.at(-1) ?? '');
}

/** Whether a name is that of a power factor, real over apparent power. */
export function isPowerFactor(name: string): boolean {
  const words = wordsOf(name);
  const followed = (one: string, two: string): boolean =>
    words.some((word, k) => word === one && words[k + 1] === two);
  return (
    words.includes('pf') ||
    words.includes('cosphi') ||
    followed('cos', 'phi') ||
    followed('power', 'factor') ||
    /cos\s*[φϕ]/i.test(name)
  );
}

const phase = /(?<![A-Za-z0-9])L([123])(?![A-Za-z0-9])/;

/** Whether each name is that of one of the phases L1, L2 and L3, none twice, and nothing else tells them apart. */
export function arePhases(names: readonly string[]): boolean {
  const stems = new Set(names.map((name) => name.replace(phase, 'L')));
  const found = new Set(names.map((name) => phase.exec(name)?.[1]));
  return stems.size === 1 && !found.has(undefined) && found.size === names.length;
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
