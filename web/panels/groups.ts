/** Panels that show a group as a band and one chosen member as a line: AC power, trays, shelves. */
import type { Bundle } from '../../src/bundle/format.ts';
import type { Channel } from '../../src/channels/channel.ts';
import { html } from '../dom.ts';
import type { Lens } from '../lens.ts';
import { withUnit } from '../numbers.ts';
import { fillBand, level, strokeEdge, strokeTrace } from '../paint.ts';
import { makePanel } from '../plot.ts';
import { envelopeOf, outermostAt, type Record } from '../record.ts';
import { type Ink, ink } from '../theme.ts';

export function acPanel(host: HTMLElement, lens: Lens, record: Record, { report }: Bundle): void {
  const power = record.series('total.ac_power_W');
  if (power === null) return;
  const mean = report.metrics.ac_power_mean_W;
  makePanel(host, lens, record, {
    id: 'ac',
    title: 'AC input',
    note: 'active power drawn from all feeders',
    height: 150,
    unit: 'W',
    series: () => [power],
    include: mean === null ? [] : [mean],
    draw(frame) {
      strokeTrace(frame, power, { tint: 'copper', width: 1.8 });
      if (mean !== null) level(frame, mean, `mean ${withUnit(mean, 'W')}`, { tint: 'muted', dash: [3, 3] });
    },
    rows: (bucket) => [
      {
        mark: 'solid',
        tint: 'copper',
        name: 'AC power',
        value: withUnit(record.middle('total.ac_power_W', bucket), 'W'),
      },
      {
        mark: 'none',
        tint: 'muted',
        name: 'line current, RMS per phase',
        value: withUnit(record.middle('total.line_current_A', bucket), 'A'),
      },
      {
        mark: 'none',
        tint: 'muted',
        name: 'against the mean',
        value: mean === null ? '–' : withUnit(record.middle('total.ac_power_W', bucket) / mean - 1, 'ratio'),
      },
    ],
  });
}

export function traysPanel(host: HTMLElement, lens: Lens, record: Record): void {
  groupPanel(host, lens, record, record.ofKind('tray-charge'), {
    id: 'trays',
    title: 'Trays, state of charge',
    note: 'band over all trays: energy share of the present voltage window',
    unit: 'ratio',
    tint: 'tray',
    picker: 'Choose a tray to draw over the band',
    levels: [],
    include: [],
  });
}

export function shelvesPanel(host: HTMLElement, lens: Lens, record: Record, { scenario }: Bundle): void {
  const rated = scenario.shelves[0]?.values;
  const rated_A =
    rated === undefined ? null : (rated.module_count_count * rated.module_power_W) / rated.rated_voltage_V;
  groupPanel(host, lens, record, record.ofKind('shelf-current'), {
    id: 'shelves',
    title: 'Shelves, output current',
    note: 'band over all shelves: its width is the share error',
    unit: 'A',
    tint: 'copper',
    picker: 'Choose a shelf to draw over the band',
    levels: rated_A === null ? [] : [{ value: rated_A, words: `rated ${withUnit(rated_A, 'A')}` }],
    include: rated_A === null ? [] : [rated_A],
  });
}

interface Group {
  readonly id: string;
  readonly title: string;
  readonly note: string;
  readonly unit: string;
  readonly tint: Ink;
  readonly picker: string;
  readonly levels: readonly { readonly value: number; readonly words: string }[];
  readonly include: readonly number[];
}

function groupPanel(
  host: HTMLElement,
  lens: Lens,
  record: Record,
  members: readonly Channel[],
  group: Group,
): void {
  const { unit, tint } = group;
  const band = envelopeOf(
    record,
    members.map(({ id }) => id),
  );
  if (band === null) return;
  let chosen = members[0]!;
  const picker = html(
    'select',
    { id: `${group.id}-picker`, 'aria-label': group.picker },
    ...members.map(({ id, owner }) => html('option', { value: id }, owner)),
  );
  const redraw = makePanel(host, lens, record, {
    id: group.id,
    title: group.title,
    note: group.note,
    height: 130,
    unit,
    series: () => [band],
    include: group.include,
    controls: [picker],
    draw(frame) {
      fillBand(frame, band, ink(tint), 0.28);
      strokeEdge(frame, band, 'high', { tint: 'muted', width: 1 });
      strokeEdge(frame, band, 'low', { tint: 'muted', width: 1 });
      for (const { value, words } of group.levels)
        level(frame, value, words, { tint: 'fail', dash: [6, 4], below: true });
      const series = record.series(chosen.id);
      if (series !== null) strokeTrace(frame, series, { tint, width: 1.8 });
    },
    rows(bucket) {
      const outer = outermostAt(record, members, bucket);
      return [
        {
          mark: 'thin',
          tint: 'muted',
          name: `highest, ${outer?.highest.owner}`,
          value: withUnit(band.max[bucket], unit),
        },
        {
          mark: 'thin',
          tint: 'muted',
          name: `lowest, ${outer?.lowest.owner}`,
          value: withUnit(band.min[bucket], unit),
        },
        { mark: 'solid', tint, name: chosen.owner, value: withUnit(record.middle(chosen.id, bucket), unit) },
      ];
    },
  });
  picker.addEventListener('change', () => {
    chosen = members.find(({ id }) => id === picker.value) ?? chosen;
    redraw();
  });
}
