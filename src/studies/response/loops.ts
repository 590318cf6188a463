/** The loops of a cabinet, each with its margins and its gain as a curve. */
import { numberText } from '../../analysis/words/number-text.ts';
import { type Complex, magnitude, subtract } from '../../linear/complex.ts';
import { eigenvaluesOf } from '../../linear/complex-eigenvalues.ts';
import { logFrequencies } from '../../linear/curves.ts';
import { traceLoci } from '../../linear/loops/loci.ts';
import { clearanceOf, type LoopAt, type Margins, marginsOf } from '../../linear/loops/margins.ts';
import { curveOf } from './curve.ts';
import type { DrawnLoop, LoopKind } from './loop.ts';
import type { Motions } from './motions.ts';
import type { Places } from './places.ts';
import { type FirmwareLoop, firmwareLoops, sampledVoltageLoops } from './sampled-loops.ts';
import { voltageLoops } from './voltage-loop.ts';
import type { Wanted } from './wanted.ts';

/** Margins are looked for on a grid of their own, so that they do not depend on how many points are drawn. */
const grid = { low_Hz: 0.01, high_Hz: 2e4, points: 127 };
/**
 * Of the voltage loops: below 1 Hz their gains are in the hundreds; above the range of the curves their loci may still
 * pass −180°.
 */
const voltage = { lowest_Hz: 1, beyond_Hz: [2.3e4, 2.7e4, 3.1e4, 3.6e4, 4.2e4, 5e4] };

export function marginGrid(): number[] {
  return logFrequencies(grid.low_Hz, grid.high_Hz, grid.points);
}

interface Asked {
  readonly places: Places;
  readonly motions: Motions;
  readonly wanted: readonly Wanted[];
  /** Frequencies of the curves. */
  readonly frequencies: readonly number[];
  /** Growing poles of the closed cabinet. */
  readonly growing: number;
}

/** A loop with its margins, found on a grid, and its curve; sampled ones end at half their rate. */
type Draw = (
  name: string,
  kind: LoopKind,
  about: string,
  count: number,
  at: LoopAt,
  over_Hz: readonly number[],
  half_sampling_Hz?: number,
) => DrawnLoop;

export function loopsOf({ places, motions, wanted, frequencies, growing }: Asked): DrawnLoop[] {
  const drawn: Draw = (name, kind, about, count, at, over_Hz, half_sampling_Hz) => {
    const margins = marginsOf(at, over_Hz, growing, half_sampling_Hz);
    const shown = frequencies.filter((f) => f <= (half_sampling_Hz ?? Number.POSITIVE_INFINITY));
    const curve = curveOf(name, '', shown, nearestLocus(at, shown, margins), half_sampling_Hz ?? null);
    return { name, kind, about, places: count, ...margins, curve };
  };
  const sampled = ({ name, kind, about, places: count, period_s, at }: FirmwareLoop): DrawnLoop[] => {
    const half_Hz = 0.5 / period_s;
    const over = [...marginGrid().filter((f) => f < half_Hz), half_Hz];
    if (over.length < 2 || frequencies.filter((f) => f <= half_Hz).length < 2) return [];
    const words = `${about}; up to ${numberText(half_Hz, 'Hz')}, half its sampling rate`;
    return [drawn(name, kind, words, count, at, over, half_Hz)];
  };
  return [
    ...voltageOf(places, motions, drawn),
    ...sampledVoltageLoops(places).flatMap(sampled),
    ...wanted.flatMap(({ name, loop, drive, value }) => {
      if (loop === null) return [];
      const at: LoopAt = (frequency_Hz) => [[value(motions.under([drive], frequency_Hz)[0]!)]];
      return [drawn(name, 'single', loop, 1, at, marginGrid())];
    }),
    ...firmwareLoops(places).flatMap(sampled),
  ];
}

function voltageOf(places: Places, motions: Motions, drawn: Draw): DrawnLoop[] {
  const { setPoint } = places;
  const { coupled, common, single, shelves } = voltageLoops(
    places,
    (frequency_Hz) => motions.underFast(setPoint, frequency_Hz),
    (frequency_Hz) => motions.underHeld(setPoint, frequency_Hz),
  );
  if (shelves.length === 0) return [];
  const voltageGrid = [...marginGrid().filter((f) => f >= voltage.lowest_Hz), ...voltage.beyond_Hz];
  const one = (k: number, kind: LoopKind, about: string): DrawnLoop =>
    drawn(`voltage loop of ${shelves[k]}`, kind, about, 1, single[k]!, voltageGrid);
  if (shelves.length === 1) return [one(0, 'single', 'opened at its error: K_p and K_i alike')];
  const distance = single.map((at) => clearanceOf(at, voltageGrid));
  return [
    drawn(
      'voltage loops',
      'coupled',
      `opened at the errors of all ${shelves.length} shelves at once: K_p and K_i of all alike`,
      shelves.length,
      coupled,
      voltageGrid,
    ),
    one(
      distance.indexOf(Math.min(...distance)),
      'one of several',
      'opened at its error, the others closed, commands held; of all shelves the one nearest to −1',
    ),
    drawn(
      'voltage loops together',
      'one direction',
      'the same opened and driven alike: one direction of many, and no margin of the others',
      shelves.length,
      common,
      voltageGrid,
    ),
  ];
}

/** Of each frequency the eigenvalue on the locus that decides: the one that passes at the gain margin, or nearest to −1. */
function nearestLocus(at: LoopAt, frequencies: readonly number[], margins: Margins): Complex[] {
  const loci = (frequency_Hz: number): readonly Complex[] => eigenvaluesOf(at(frequency_Hz));
  const { phase_crossover_Hz: edge_Hz, gain_margin_dB } = margins;
  const isWithin = edge_Hz !== null && edge_Hz > frequencies[0]! && edge_Hz < frequencies.at(-1)!;
  const over = isWithin ? [...frequencies, edge_Hz].sort((a, b) => a - b) : frequencies;
  const points = traceLoci(loci, over);
  const goal: Complex = { re: isWithin ? -(10 ** (-gain_margin_dB! / 20)) : -1, im: 0 };
  const looked = isWithin ? points.filter(({ frequency_Hz }) => frequency_Hz === edge_Hz) : points;
  const distance = points[0]!.values.map((_, k) =>
    Math.min(...looked.map(({ values }) => magnitude(subtract(values[k]!, goal)))),
  );
  const chosen = distance.indexOf(Math.min(...distance));
  const isDrawn = new Set(frequencies);
  return points.flatMap(({ frequency_Hz, values }) => (isDrawn.has(frequency_Hz) ? [values[chosen]!] : []));
}
