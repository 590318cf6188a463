/** Where the energy went, largest first. */
import type { Bundle } from '../../src/bundle/format.ts';
import type { EnergyRow } from '../../src/engine/result.ts';
import { html } from '../dom.ts';
import { withUnit } from '../numbers.ts';
import { paper } from './paper.ts';

const kinds: readonly (readonly [EnergyRow['kind'], string])[] = [
  ['input', 'supplied'],
  ['load', 'to the load'],
  ['loss', 'lost'],
  ['stored', 'stored'],
];

/** Rows smaller than this share of the input are left out of the page; report.json has them. */
const negligible = 1e-7;

/** A row of the audit; its bar is the share of `whole`. */
function line(role: 'sum' | 'part', name: string, value: number, whole: number): HTMLElement {
  return html(
    'tr',
    { class: role },
    html('th', { scope: 'row' }, name),
    html('td', {}, withUnit(value, 'J')),
    share(value / whole),
  );
}

export function energy({ report: { energy: e } }: Bundle): HTMLElement {
  const largest = Math.max(1, Math.abs(e.input_J ?? 0));
  const sums = { input: e.input_J, load: e.load_J, loss: e.loss_J, stored: e.stored_J };
  const body = kinds.flatMap(([kind, word]) => {
    const rows = merged(e.rows.filter((row) => row.kind === kind));
    const group = Math.max(...rows.map(([, value]) => Math.abs(value)), Math.abs(sums[kind] ?? 0));
    const shown = rows.filter(([, value]) => Math.abs(value) > negligible * largest);
    return [
      line('sum', word, sums[kind] ?? 0, largest),
      ...shown.map(([name, value]) => line('part', name, value, group)),
    ];
  });
  const open = (ratio: number | null): string => (ratio === null ? '–' : ratio.toExponential(1));
  const residual = `residual ${open(e.residual_ratio)} of the throughput, ${open(e.residual_loss_ratio)} of the losses`;
  return paper('Energy audit', residual.replaceAll('-', '−'), html('table', { class: 'energy' }, ...body));
}

/** Rows of one cause and kind of device added up, the largest first: S1, S2 … become one line. */
function merged(rows: readonly EnergyRow[]): readonly (readonly [string, number])[] {
  const sums = new Map<string, number>();
  for (const { owner, cause, energy_J } of rows) {
    const name = familyOf(owner, cause);
    sums.set(name, (sums.get(name) ?? 0) + energy_J);
  }
  return [...sums].sort(([, a], [, b]) => Math.abs(b) - Math.abs(a));
}

const families: Readonly<globalThis.Record<string, string>> = {
  S: 'shelves',
  T: 'trays',
  B: 'batteries',
  K: 'banks',
  F: 'feeders',
};

function familyOf(owner: string, cause: string): string {
  if (cause === 'bar' || owner.startsWith('bar '))
    return owner.includes('contact') ? 'sled contacts' : 'bars';
  if (/\.(output|shunt|ceramic|input)$/.test(owner)) return 'small capacitors';
  const own = owner.replace(/^[a-z]+ /, '');
  const letter = /^([A-Z])\d+$/.exec(own)?.[1] ?? '';
  const family = own.startsWith('sled-') ? 'sleds' : (families[letter] ?? own);
  return cause === 'change' || cause === 'sled' ? family : `${family}, ${cause}`;
}

function share(ratio: number): HTMLElement {
  const width = Math.min(100, 100 * Math.abs(ratio));
  return html(
    'td',
    { class: 'share' },
    html('span', { style: `width:${width.toFixed(2)}%`, 'aria-hidden': 'true' }),
  );
}
