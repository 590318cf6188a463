/** The cabinet file of a draft, commented where somebody who writes one by hand would ask. */
import { formatQuantity } from '../../base/quantity.ts';
import { type Batch, countOf, type Draft, totalOf } from './answers.ts';
import type { SizedFamily } from './kits.ts';
import type { DraftedModels } from './models.ts';
import { type Layout, letter, type PlacedKind } from './places.ts';

/** Set-point offsets within the usual accuracy of 0.25 %, as those of the reference cabinet; shelves take them in turn. */
const offsets = ['+0.20 %', '-0.15 %', '+0.05 %', '-0.22 %', '+0.11 %', '+0.24 %', '-0.08 %', '-0.15 %'];

export function cabinetText(
  name: string,
  draft: Draft,
  layout: Layout,
  models: DraftedModels,
  schemas: string,
): string {
  const rated_W = totalOf(draft.sleds);
  const rated = formatQuantity(rated_W, 'power');
  const sleds = draft.sleds
    .map(({ count, size }) => `${count} of ${formatQuantity(size, 'power')}`)
    .join(', ');
  const sections = Object.keys(layout.sections);
  return [
    `# yaml-language-server: $schema=${schemas}/cabinet.json`,
    '# Drafted by buswake new: a cabinet to begin from. Change anything; `buswake check` tells what does not fit.',
    `cabinet: ${name}`,
    `title: ${name}, ${rated}`,
    '',
    '# Voltage limits are shares of nominal, power limits shares of rated.',
    `nominal: { value: ${formatQuantity(draft.nominal_V, 'voltage')}, source: assumed, why: "as asked for; limits are shares of it" }`,
    `rated: { value: ${rated}, source: derived, why: "sleds: ${sleds}" }`,
    '',
    '# AC supplies; each feeds the shelves of one section.',
    'feeders:',
    `  model: ${models.feeder}`,
    `  units: [${sections.map((_, k) => `F${k + 1}`).join(', ')}]`,
    '',
    '# Places along the cabinet bar, counted from the link end. One place is one bar node.',
    'sections:',
    ...sections.map((section) => `  ${section}: [${layout.sections[section]!.join(', ')}]`),
    '',
    'bars:',
    `  model: models/${draft.kit.bars}`,
    '  # From a place of a section to a node of the rack bar; sled k hangs on rack node k. As many as carry the rated',
    '  # current at 1200 A each.',
    '  links:',
    ...layout.links.map(
      ({ id, section, place, rack }) => `    ${id}: { section: ${section}, place: ${place}, rack: ${rack} }`,
    ),
    ...(sections.length === 2
      ? ['  # Joins the far ends of the two sections.', '  tie: { id: tie, closed: true }']
      : ['  tie: none']),
    '',
    '# Set-point offsets lie inside the usual accuracy; starts after AC return are staggered.',
    ...unitsText('shelves', draft, layout, models, (k, section) => [
      `feeder: F${sections.indexOf(section) + 1}`,
      `set_point_offset: ${offsets[k % offsets.length]}`,
      `start_delay: ${1.5 + 0.5 * k} s`,
    ]),
    '  # In which order they are fitted when a change says how many, for example shelves.count: 7; those that are not there',
    `  # yet name their place. Here and below ${sections.length === 2 ? 'both sections fill evenly' : 'the section fills'}, from the link end.`,
    ...sizesInTurn(draft.shelves, 'shelves'),
    fillText(layout, 'shelves'),
    '',
    ...(['trays', 'banks', 'batteries'] as const).flatMap((kind) => [
      ...unitsText(kind, draft, layout, models, () => []),
      ...sizesInTurn(draft[kind], kind),
      fillText(layout, kind),
      '',
    ]),
    "# A sled's share of the load is its weight over the sum of all weights: here its peak power in kilowatts.",
    ...sledsText(draft, models),
    '',
    `firmware: ${models.firmware}`,
    'limits: models/limits-default.yaml',
    '',
  ].join('\n');
}

/** Each unit's batch, in their order. */
function batchOfEach(batches: readonly Batch[]): readonly Batch[] {
  return batches.flatMap((batch) => Array.from({ length: batch.count }, () => batch));
}

function unitsText(
  kind: PlacedKind,
  draft: Draft,
  layout: Layout,
  models: DraftedModels,
  own: (k: number, section: string) => readonly string[],
): readonly string[] {
  const batches = batchOfEach(draft[kind]);
  const common = draft[kind][0]!;
  const lines = layout.units[kind].map(({ id, section }, k) => {
    const batch = batches[k]!;
    const values = [...(batch === common ? [] : [`model: ${models.of(kind, batch)}`]), ...own(k, section)];
    return { id, values };
  });
  const plain = lines.every(({ values }) => values.length === 0);
  return [
    `${kind}:`,
    `  model: ${models.of(kind, common)}`,
    ...(plain
      ? [`  units: [${lines.map(({ id }) => id).join(', ')}]`]
      : [
          '  units:',
          ...lines.map(({ id, values }) =>
            `    ${id}: ${values.length === 0 ? '' : `{ ${values.join(', ')} }`}`.trimEnd(),
          ),
        ]),
  ];
}

/** Of units of several sizes what a count comes to: which is fitted first is told by nothing but the order. */
function sizesInTurn(batches: readonly Batch[], kind: PlacedKind): readonly string[] {
  if (batches.length < 2) return [];
  const size = ({ size }: Batch): string => formatQuantity(size, kind === 'banks' ? 'capacitance' : 'power');
  const sizes = batches.map((batch) => `${batch.count} of ${size(batch)}`).join(', then ');
  return [
    `  # ${kind}.count takes them from the front of this list: ${sizes}, then more of ${size(batches[0]!)}.`,
    `  # Another model for one of them: ${kind}.${letter[kind]}1.model = FILE, in a change or a study.`,
  ];
}

/** A few a line, so that it can be read. */
const fillPerLine = 6;

function fillText(layout: Layout, kind: PlacedKind): string {
  const fill = layout.fill[kind];
  const lines = Array.from({ length: Math.ceil(fill.length / fillPerLine) }, (_, k) =>
    fill.slice(k * fillPerLine, (k + 1) * fillPerLine).join(', '),
  );
  return `  fill: [${lines.join(',\n    ')}]`;
}

function sledsText(draft: Draft, models: DraftedModels): readonly string[] {
  const kind: SizedFamily = 'sleds';
  const common = draft.sleds[0]!;
  const batches = batchOfEach(draft.sleds);
  return [
    `${kind}:`,
    `  model: ${models.of(kind, common)}`,
    '  units:',
    ...batches.slice(0, countOf(draft.sleds)).map((batch, k) => {
      const model = batch === common ? '' : `model: ${models.of(kind, batch)}, `;
      return `    sled-${k + 1}: { ${model}weight: ${Number((batch.size / 1e3).toPrecision(6))} }`;
    }),
  ];
}
