/** The loops of a cabinet, each with its margins and its gain as a curve. */
import { numberText } from '../../analysis/words/number-text.ts';
import { type Complex, magnitude, subtract } from '../../linear/complex.ts';
import { eigenvaluesOf } from '../../linear/complex-eigenvalues.ts';
import { logFrequencies } from '../../linear/curves.ts';
import { traceLoci } from '../../linear/loops/loci.ts';
import { clearanceOf, type LoopAt, type Margins, marginsOf } from '../../linear/loops/margins.ts';
import { curveOf } from './curve.ts';
import type { DrawnLoop, Loop, LoopKind } from './loop.ts';
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

interface Opened extends Pick<Loop, 'name' | 'kind' | 'about' | 'places'> {
  readonly at: LoopAt;
  /** Frequencies that its margins are looked for from. */
  readonly over_Hz: readonly number[];
  /** Half the rate at which it is sampled; absent where it is not. */
  readonly half_sampling_Hz?: number;
}

/** What loops are made of. */
interface Made {
  readonly places: Places;
  readonly motions: Motions;
  readonly wanted: readonly Wanted[];
}

/** Every loop with its margins; `growing`: growing poles of the closed cabinet. */
export function loopMargins(made: Made, growing: number): Loop[] {
  return openedLoops(made).map((loop) => withMargins(loop, growing));
}

/** The same, each with its gain as a curve over `frequencies`; sampled ones end at half their rate. */
export function loopsOf(
  made: Made,
  { frequencies, growing }: { readonly frequencies: readonly number[]; readonly growing: number },
): DrawnLoop[] {
  return openedLoops(made).flatMap((loop) => {
    const { name, at, half_sampling_Hz } = loop;
    const shown = frequencies.filter((f) => f <= (half_sampling_Hz ?? Number.POSITIVE_INFINITY));
    if (shown.length < 2) return [];
    const found = withMargins(loop, growing);
    const curve = curveOf(name, '', shown, nearestLocus(at, shown, found), half_sampling_Hz ?? null);
    return [{ ...found, curve }];
  });
}

function withMargins({ at, over_Hz, half_sampling_Hz, ...loop }: Opened, growing: number): Loop {
  return { ...loop, ...marginsOf(at, over_Hz, growing, half_sampling_Hz) };
}

function openedLoops({ places, motions, wanted }: Made): Opened[] {
  const sampled = ({ name, kind, about, places: count, period_s, at }: FirmwareLoop): Opened[] => {
    const half_Hz = 0.5 / period_s;
    const over_Hz = [...marginGrid().filter((f) => f < half_Hz), half_Hz];
    if (over_Hz.length < 2) return [];
    const words = `${about}; up to ${numberText(half_Hz, 'Hz')}, half its sampling rate`;
    return [{ name, kind, about: words, places: count, at, over_Hz, half_sampling_Hz: half_Hz }];
  };
  return [
    ...voltageOf(places, motions),
    ...sampledVoltageLoops(places).flatMap(sampled),
    ...wanted.flatMap(({ name, loop, drive, value }): Opened[] => {
      if (loop === null) return [];
      const at: LoopAt = (frequency_Hz) => [[value(motions.under([drive], frequency_Hz)[0]!)]];
      return [{ name, kind: 'single', about: loop, places: 1, at, over_Hz: marginGrid() }];
    }),
    ...firmwareLoops(places).flatMap(sampled),
  ];
}

function voltageOf(places: Places, motions: Motions): Opened[] {
  const { setPoint } = places;
  const { coupled, common, single, shelves } = voltageLoops(
    places,
    (frequency_Hz) => motions.underFast(setPoint, frequency_Hz),
    (frequency_Hz) => motions.underHeld(setPoint, frequency_Hz),
  );
  if (shelves.length === 0) return [];
  const over_Hz = [...marginGrid().filter((f) => f >= voltage.lowest_Hz), ...voltage.beyond_Hz];
  // Battery shelves carry where no other runs: other gains, other margins.
  const whose = places.runs ? '' : 'battery ';
  const one = (k: number, kind: LoopKind, about: string): Opened => ({
    name: `${whose}voltage loop of ${shelves[k]}`,
    kind,
    about,
    places: 1,
    at: single[k]!,
    over_Hz,
  });
  if (shelves.length === 1) return [one(0, 'single', 'opened at its error: K_p and K_i alike')];
  const distance = single.map((at) => clearanceOf(at, over_Hz));
  return [
    {
      name: `${whose}voltage loops`,
      kind: 'coupled',
      about: `opened at the errors of all ${shelves.length} shelves at once: K_p and K_i of all alike`,
      places: shelves.length,
      at: coupled,
      over_Hz,
    },
    one(
      distance.indexOf(Math.min(...distance)),
      'one of several',
      'opened at its error, the others closed, commands held; of all shelves the one nearest to −1',
    ),
    {
      name: `${whose}voltage loops together`,
      kind: 'one direction',
      about: 'the same opened and driven alike: one direction of many, and no margin of the others',
      places: shelves.length,
      at: common,
      over_Hz,
    },
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
