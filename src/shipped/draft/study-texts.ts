/** Two studies to begin with: how many trays a cabinet takes, and which designs about it none beats. */
import { formatQuantity } from '../../base/quantity.ts';
import { type Batch, countOf, type Draft, startPower_W, totalOf } from './answers.ts';
import { type Layout, letter, type PlacedKind } from './places.ts';

export function studyTexts(
  name: string,
  draft: Draft,
  layout: Layout,
  schemas: string,
): Readonly<Record<string, string>> {
  return {
    ...(countOf(draft.trays) === 0 ? {} : { 'trays.yaml': sizingText(name, draft, layout, schemas) }),
    'designs.yaml': designsText(name, draft, layout, schemas),
  };
}

/** How many trays a start from idle takes in power with a spare one. */
function needed({ trays, sleds }: Draft): number {
  const lacking_W = startPower_W(totalOf(sleds)) + largestOf(trays).size - totalOf(trays);
  return countOf(trays) + Math.ceil(lacking_W / trays[0]!.size);
}

/** About what a start needs, and about what is drafted: three fewer to three more. */
function sizingText(name: string, draft: Draft, layout: Layout, schemas: string): string {
  const { trays } = draft;
  const count = countOf(trays);
  const enough = needed(draft);
  const from = Math.max(1, Math.min(count, enough) - 3);
  const to = Math.min(Math.max(count, enough) + 3, layout.fill.trays.length);
  const sizes = sizesOf(trays);
  return [
    `# yaml-language-server: $schema=${schemas}/study.json`,
    '# How many trays? Each candidate is run through every situation; what a shelf or a bank out takes is asked by designs.yaml.',
    'study: size',
    `title: Trays of ${name}`,
    'scenario: pulses.yaml',
    '',
    ...(sizes.length < 2 ? [] : ['# Which of them a count fits: the order of fill in cabinet.yaml.']),
    'vary:',
    `  trays.count: ${from} to ${to}`,
    '',
    ...cases,
    'corners:',
    '  new: []',
    '  aged: [ageing.trays = end-of-life, ageing.banks = end-of-life]',
    '',
    '# Out from the start: the normal limits hold.',
    ...(sizes.length < 2 ? [] : ['# Where a count fits none of a size, its loss is that of none.']),
    'redundancy:',
    '  whole: []',
    ...sizes.map((batch) => {
      const which = sizes.length < 2 ? '' : ` of ${formatQuantity(batch.size, 'power')}`;
      return `  one tray${which} out: [trays.${firstOf('trays', trays, batch)}.fitted = no]`;
    }),
    '',
  ].join('\n');
}

/** A start is run as long as its ramps are judged: `size` and `designs` ask it many times. */
const cases: readonly string[] = [
  'cases:',
  '  pulse train: { scenario: pulses.yaml, changes: [duration = 16 s] }',
  '  idle to full: { scenario: start.yaml, changes: [duration = 12 s] }',
  '',
];

/** A few more of what buffers than is drafted, and than a start needs; of a cabinet with neither trays nor banks, shelves. */
function designsText(name: string, draft: Draft, layout: Layout, schemas: string): string {
  const range = (kind: PlacedKind, more: number, least = 0): readonly string[] => {
    const places = layout.fill[kind].length;
    const count = Math.min(Math.max(countOf(draft[kind]), least), places);
    return count === 0 ? [] : [`  ${kind}.count: ${count} to ${Math.min(count + more, places)}`];
  };
  const hasTrays = countOf(draft.trays) > 0;
  const buffers = [...(hasTrays ? range('trays', 2, needed(draft)) : []), ...range('banks', 1)];
  const losses = (['shelves', 'trays', 'banks'] as const).flatMap((kind) => {
    if (countOf(draft[kind]) < 2) return [];
    const unit = firstOf(kind, draft[kind], largestOf(draft[kind]));
    return [`  one ${single[kind]} out: [${kind}.${unit}.fitted = no]`];
  });
  return [
    `# yaml-language-server: $schema=${schemas}/study.json`,
    '# Which designs does none beat? Every combination of what is varied is run through every situation. Parts are new here: how',
    '# many trays old ones take is asked by trays.yaml.',
    'study: designs',
    `title: Designs of ${name}`,
    'scenario: pulses.yaml',
    '',
    'vary:',
    ...(buffers.length > 0 ? buffers : range('shelves', 1)),
    '',
    '# Cost, mass and rack_units as well, once a figure is stated for every kind of unit, here or in its model file:',
    '#   figures: { trays: { cost: { value: 1300, source: published, citation: which offer } } }',
    'objectives: losses, headroom',
    '',
    ...cases,
    '# The largest of each kind of which there are two, out from the start; batteries sleep through both loads.',
    'redundancy:',
    '  whole: []',
    ...losses,
    '',
  ].join('\n');
}

const single = { shelves: 'shelf', trays: 'tray', banks: 'bank' } as const;

/** Each size once. */
function sizesOf(batches: readonly Batch[]): readonly Batch[] {
  return batches.filter(
    ({ count, size }, k) => count > 0 && batches.findIndex((one) => one.count > 0 && one.size === size) === k,
  );
}

function largestOf(batches: readonly Batch[]): Batch {
  return sizesOf(batches).reduce((a, b) => (b.size > a.size ? b : a));
}

/** Name of the first unit of a batch. */
function firstOf(kind: PlacedKind, batches: readonly Batch[], batch: Batch): string {
  return `${letter[kind]}${countOf(batches.slice(0, batches.indexOf(batch))) + 1}`;
}
