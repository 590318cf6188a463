/** The balance in the middle of the drawing: from the feeders through the shelves to the sleds, at the cursor. */
import type { Bundle } from '../../src/bundle/format.ts';
import { html } from '../dom.ts';
import { withUnit } from '../numbers.ts';
import { outermostAt, type Record } from '../record.ts';

interface Line {
  readonly name: string;
  readonly value: (bucket: number) => string;
}

export interface Sums {
  readonly table: HTMLElement;
  update(bucket: number): void;
}

export function makeSums(record: Record, { scenario }: Bundle): Sums {
  const watt = (id: string): ((bucket: number) => string) => {
    return (bucket) => withUnit(record.mean(`total.${id}`, bucket), 'W');
  };
  const feeder = (id: string): Line => ({
    name: id,
    value: (bucket) => {
      let sum = 0;
      for (const shelf of scenario.shelves)
        if (shelf.feeder === id) sum += record.mean(`${shelf.id}.ac_power_W`, bucket);
      return withUnit(sum, 'W');
    },
  });
  const nodes = record.ofKind('node-voltage');
  const node = (end: 'lowest' | 'highest', edge: 'min' | 'max'): Line => ({
    name: end,
    value: (bucket) => {
      const channel = outermostAt(record, nodes, bucket)?.[end];
      if (channel === undefined) return '–';
      return `${withUnit(record.series(channel.id)?.[edge][bucket], 'V')} ${channel.owner}`;
    },
  });
  const groups: readonly (readonly [string, readonly Line[]])[] = [
    [
      'From the feeders',
      [...scenario.feeders.map(({ id }) => feeder(id)), { name: 'all', value: watt('ac_power_W') }],
    ],
    [
      'Onto the bus',
      [
        { name: 'shelves', value: watt('shelves_W') },
        { name: 'trays', value: watt('trays_W') },
        { name: 'batteries', value: watt('batteries_W') },
        { name: 'capacitors', value: watt('capacitors_W') },
      ],
    ],
    [
      'To the sleds',
      [{ name: 'demand', value: watt('load_W') }, node('lowest', 'min'), node('highest', 'max')],
    ],
  ];
  const cells: { readonly cell: HTMLElement; readonly line: Line }[] = [];
  const table = html(
    'div',
    { class: 'sums' },
    ...groups.map(([title, lines]) =>
      html(
        'dl',
        {},
        html('dt', { class: 'group' }, title),
        ...lines.flatMap((line) => {
          const cell = html('dd');
          cells.push({ cell, line });
          return [html('dt', {}, line.name), cell];
        }),
      ),
    ),
  );
  return {
    table,
    update(bucket) {
      for (const { cell, line } of cells) cell.textContent = line.value(bucket);
    },
  };
}
