/** Random faults: every kind of event that there is, on any unit of the cabinet that it may happen to. */
import { type AmountWord, type OccurrenceKind, occurrences } from '../../src/scenario/occurrences.ts';
import type { ReadScenario } from '../../src/scenario/read.ts';
import { type Draw, written, writtenTime } from './draw.ts';

/** How much of each kind: from what is hardly felt to beyond what is seen in practice. */
const amounts: Readonly<Record<OccurrenceKind, ((draw: Draw, length_s: number) => string) | null>> = {
  'shelf-trip': null,
  'shelf-join': null,
  'module-out': (draw) => String(draw.whole(1, 3)),
  'set-point-shift': (draw) => written(draw.between(-0.02, 0.02), ''),
  'sensor-shift': (draw) => written(draw.between(-0.3, 0.3), ''),
  'share-out': null,
  'reverse-feed': (draw) => written(draw.acrossDecades(5, 2000), 'A'),
  'coolant-loss': (draw) => written(draw.between(0, 1), ''),
  'tray-out': null,
  'tray-stuck': (draw) => written(draw.between(-20, 20), 'kW'),
  'charge-shift': (draw) => written(draw.between(-0.3, 0.3), ''),
  'bank-out': (draw) => written(draw.between(0.05, 1), ''),
  'bank-short': null,
  'battery-fail': null,
  'battery-late': (draw, length_s) => writtenTime(draw.between(0, length_s)),
  'bar-out': null,
  'joint-aged': (draw) => written(draw.acrossDecades(30e-6, 10e-3), 'Ω'),
  'ac-loss': null,
  'ac-return': null,
  'ac-sag': (draw) => written(draw.between(0.05, 1), ''),
  'ac-swell': (draw) => written(draw.between(1, 1.5), ''),
  'phase-loss': null,
  'signal-lost': null,
  'signal-frozen': null,
  'signal-late': (draw) => writtenTime(draw.acrossDecades(1e-4, 1e-2)),
  'signal-jitter': (draw) => writtenTime(draw.acrossDecades(1e-4, 1e-2)),
  'signal-scaled': (draw) => written(draw.between(-1, 2), ''),
  'signal-stuck': (draw) => written(draw.between(0, 1.5), ''),
  'sled-short': (draw) => written(draw.acrossDecades(5e-5, 0.1), 'Ω'),
  'sled-off': null,
  'sled-on': null,
  brake: (draw) => written(draw.between(0, 1), ''),
};

/** Kinds that short the bus. */
export const shortKinds: readonly OccurrenceKind[] = ['sled-short', 'bank-short', 'reverse-feed'];

/** One line of `events:`; `only`: kinds to choose among. */
export function randomFault(
  draw: Draw,
  units: ReadScenario['eventUnits'],
  length_s: number,
  only: readonly OccurrenceKind[],
): string {
  const what = draw.pick(only.filter((kind) => units[kind].length > 0));
  const kind = occurrences[what];
  const fields: [string, string][] = [
    ['at', writtenTime(draw.between(0.1, 0.9) * length_s)],
    ['what', what],
    ['unit', draw.pick(units[what])],
  ];
  const word: AmountWord | undefined = kind.amount?.word;
  const amount = amounts[what];
  if (word !== undefined && amount !== null) fields.push([word, amount(draw, length_s)]);
  const passes = kind.passes === 'must' || (kind.passes === 'may' && draw.chance(0.5));
  if (passes) fields.push(['for', writtenTime(draw.acrossDecades(1e-4, 0.5 * length_s))]);
  if (kind.ramps === true && draw.chance(0.3))
    fields.push(['over', writtenTime(draw.between(0.01, 0.3) * length_s)]);
  return `  - { ${fields.map(([key, text]) => `${key}: ${text}`).join(', ')} }`;
}
