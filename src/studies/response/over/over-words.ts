/** The worst margins in words, the same on a terminal, on a page and on paper. */
import { digits } from '../../../base/digits.ts';
import { gainOfDisk_dB } from '../../../linear/loops/disk.ts';
import { shortTime } from '../margin-words.ts';
import type { Criterion } from './criteria.ts';
import type { OverFound, WorstMargin } from './found.ts';

/** Margins that have a column, in its order. */
const shown = {
  gain_margin_dB: 'gain may rise',
  phase_margin_deg: 'phase margin',
  delay_margin_s: 'delay margin',
  clearance_ratio: 'nearest to −1',
  disk_ratio: 'each alone (disk)',
} as const;

const dampings = { damping_below_1kHz: 'below 1 kHz', damping_below_10kHz: '1 to 10 kHz' } as const;

export const worstHeads = ['loop', ...Object.values(shown).flatMap((head) => [head, 'at'])];

/** A row for each loop: its worst margins, in brackets the margin as built at the highest load, and the point of each. */
export function worstRows({ worst }: Pick<OverFound, 'worst'>): string[][] {
  const loops = [...new Set(worst.map(({ of }) => of))].filter((of) => of !== 'modes');
  return loops.map((of) => [
    of,
    ...Object.keys(shown).flatMap((what) => {
      const one = worst.find((margin) => margin.of === of && margin.what === what)!;
      return [valueWords(one), one.point ?? '–'];
    }),
  ]);
}

/** `least damping below 1 kHz 0.215 (0.230) at P1`. */
export function dampingLines({ worst }: Pick<OverFound, 'worst'>): string[] {
  return Object.entries(dampings).flatMap(([what, words]) => {
    const one = worst.find((margin) => margin.of === 'modes' && margin.what === what);
    if (one === undefined || (one.value === null && !one.unstable)) return [];
    return [`Least damping ${words}: ${valueWords(one)} at ${one.point}`];
  });
}

function valueWords(margin: WorstMargin): string {
  if (margin.unstable) return 'unstable';
  if (margin.value === null) return 'beyond reach';
  const nominal = margin.nominal === null ? '' : ` (${numberOf(margin.what, margin.nominal)})`;
  return `${numberOf(margin.what, margin.value)}${unitOf(margin.what)}${nominal}`;
}

function numberOf(what: Criterion['what'], value: number): string {
  switch (what) {
    case 'gain_margin_dB':
    case 'gain_down_dB':
      return value.toFixed(2);
    case 'phase_margin_deg':
      return value.toFixed(1);
    case 'delay_margin_s':
      return shortTime(value);
    case 'disk_ratio': {
      const gain = gainOfDisk_dB(value);
      return `±${gain === null ? '∞' : gain.toFixed(1)}`;
    }
    default:
      return value.toFixed(3);
  }
}

function unitOf(what: Criterion['what']): string {
  switch (what) {
    case 'gain_margin_dB':
    case 'gain_down_dB':
    case 'disk_ratio':
      return ' dB';
    case 'phase_margin_deg':
      return '°';
    default:
      return '';
  }
}

/** How much was asked: `29 points of 10 states at 4 loads; …`. */
export function askedWords({ asked, loads_W, states, parts, tolerances }: OverFound): string {
  const drawn =
    tolerances === null
      ? 'no tolerances'
      : `${tolerances.samples} samples (seed ${tolerances.seed}) and corners of ${tolerances.drawn.length} tolerances`;
  const many = (count: number, word: string): string => `${count} ${word}${count === 1 ? '' : 's'}`;
  const [low, high] = [kilo(loads_W[0]!), kilo(loads_W.at(-1)!)];
  const loads = low === high ? `at ${high}` : `at ${many(loads_W.length, 'load')} from ${low} to ${high}`;
  const cases =
    parts.length === 1 ? 'parts as they are' : `${many(parts.length - 1, 'case')} of age and temperature`;
  return `${many(asked.length, 'point')}: ${many(states.length, 'state')} ${loads}; about the worst ${cases}, ${drawn}`;
}

/** What is told in lists, in their order: where a mode grows, where nothing settles, what was not asked. */
export function overLists(
  found: OverFound,
): readonly { readonly head: string; readonly lines: readonly string[] }[] {
  return [
    { head: 'A mode grows', lines: unstableLines(found) },
    { head: 'No settled point', lines: unsettledLines(found) },
    { head: 'Not asked', lines: found.not_asked.map(({ state, why }) => `${state}: ${why}`) },
  ].filter(({ lines }) => lines.length > 0);
}

/** Points without a settled point, those alike in state and reason together. */
function unsettledLines({ asked }: Pick<OverFound, 'asked'>): string[] {
  const without = asked.filter(({ reason }) => reason !== null);
  const keys = [...new Set(without.map(({ state, reason }) => JSON.stringify([state, reason])))];
  return keys.map((key) => {
    const [state, reason] = JSON.parse(key) as [string, string];
    const own = without.filter((one) => one.state === state && one.reason === reason);
    const loads = [...new Set(own.map(({ load_W }) => kilo(load_W)))].join(', ');
    return `${state === '' ? 'as built' : state} at ${loads}: ${reason}`;
  });
}

/** Points at which a mode grows. */
export function unstableLines({ asked }: Pick<OverFound, 'asked'>): string[] {
  return asked.flatMap(({ growing, state, load_W, parts, drawn }) =>
    growing === null
      ? []
      : [
          `${kilo(load_W)}, ${state === '' ? 'as built' : state}; parts ${parts}; ${drawn}: grows by ${digits(growing.growth_per_s)} 1/s at ${digits(growing.frequency_Hz)} Hz, ${growing.owner}`,
        ],
  );
}

export function kilo(watts: number): string {
  return `${Number((watts / 1e3).toPrecision(4))} kW`;
}
