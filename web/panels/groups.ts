/** Panels that show a group as a band and one chosen member as a line: AC power, trays, shelves. */

import { ratedCurrent } from '../../src/analysis/record/case.ts';
import type { JudgedRun } from '../../src/bundle/format.ts';
import type { Channel } from '../../src/channels/channel.ts';
import type { QuantityName } from '../../src/scenario/limit-quantities.ts';
import { html } from '../dom.ts';
import { outsideBands, outsideWindow } from '../judged-time.ts';
import type { Lens } from '../lens.ts';
import { withUnit } from '../numbers.ts';
import { fillBand, level, strokeEdge, strokeTrace } from '../paint.ts';
import { makePanel } from '../plot.ts';
import { envelopeOf, outermostAt, type Record } from '../record.ts';
import { channelColumns, overBuckets, reachColumns } from '../taken/over-buckets.ts';
import { type Ink, ink } from '../theme.ts';
import { drawLimits, type LimitLine } from './limit-lines.ts';
import { pinsOf } from './pins.ts';

export function acPanel(host: HTMLElement, lens: Lens, record: Record, bundle: JudgedRun): void {
  const { report } = bundle;
  const power = record.series('total.ac_power_W');
  if (power === null) return;
  const mean = report.metrics.ac_power_mean_W;
  makePanel(host, lens, record, {
    id: 'ac',
    title: 'AC input',
    note: 'active power drawn from all feeders; hatched: not judged, faintly: judged in part',
    height: 84,
    unit: 'W',
    series: () => [power],
    include: mean === null ? [] : [mean],
    shades: outsideBands(report, lens.whole_s),
    // A ramp is read off the same power.
    pins: pinsOf(['panel-ac', 'panel-ramps'], bundle),
    pinned: (_, bucket) => power.max[bucket]!,
    table: () =>
      overBuckets(
        record,
        ['total.ac_power_W', 'total.line_current_A'].flatMap((id) => channelColumns(record, id)),
      ),
    draw(frame) {
      strokeTrace(frame, power, { tint: 'copper', width: 1.8 });
      if (mean !== null) level(frame, mean, `mean ${withUnit(mean, 'W')}`, { tint: 'muted', dash: [3, 3] });
    },
    rows: (bucket) => [
      {
        mark: 'solid',
        tint: 'copper',
        name: 'AC power',
        value: withUnit(record.mean('total.ac_power_W', bucket), 'W'),
      },
      {
        mark: 'none',
        tint: 'muted',
        name: 'line current, RMS per phase',
        value: withUnit(record.mean('total.line_current_A', bucket), 'A'),
      },
      {
        mark: 'none',
        tint: 'muted',
        name: 'against the mean',
        value: mean === null ? '–' : withUnit(record.mean('total.ac_power_W', bucket) / mean - 1, 'ratio'),
      },
    ],
  });
}

export function traysPanel(host: HTMLElement, lens: Lens, record: Record, bundle: JudgedRun): void {
  groupPanel(host, lens, record, bundle, record.ofKind('tray-charge'), {
    id: 'trays',
    title: 'Trays, state of charge',
    note: 'band over all trays: energy share of the present voltage window',
    unit: 'ratio',
    quantity: 'charge_ratio',
    tint: 'tray',
    picker: 'Choose a tray to draw over the band',
    rated: null,
    limits: ['tray-charge-low', 'tray-charge-high'],
  });
}

export function shelvesPanel(host: HTMLElement, lens: Lens, record: Record, bundle: JudgedRun): void {
  const values = bundle.scenario.shelves[0]?.values;
  const rated_A = values === undefined ? null : ratedCurrent(values);
  groupPanel(host, lens, record, bundle, record.ofKind('shelf-current'), {
    id: 'shelves',
    title: 'Shelves, output current',
    note: 'band over all shelves: its width is the share error',
    unit: 'A',
    quantity: 'current_A',
    tint: 'copper',
    picker: 'Choose a shelf to draw over the band',
    rated: rated_A,
    limits: [],
  });
}

interface Group {
  readonly id: 'trays' | 'shelves';
  readonly title: string;
  readonly note: string;
  readonly unit: string;
  /** As in the ids of its channels. */
  readonly quantity: string;
  readonly tint: Ink;
  readonly picker: string;
  /** What one of them is rated for: no limit, as more than that is allowed for a while. */
  readonly rated: number | null;
  /** Quantities whose limits are values of the axis. */
  readonly limits: readonly QuantityName[];
}

function groupPanel(
  host: HTMLElement,
  lens: Lens,
  record: Record,
  bundle: JudgedRun,
  members: readonly Channel[],
  group: Group,
): void {
  const { unit, tint } = group;
  const band = envelopeOf(
    record,
    members.map(({ id }) => id),
  );
  if (band === null) return;
  const { rated } = group;
  const limits = limitsOn(group.limits, bundle);
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
    height: 110,
    unit,
    series: () => [band],
    include: rated === null ? [] : [rated],
    controls: [picker],
    shades: outsideWindow(bundle.report, lens.whole_s),
    pins: pinsOf([`panel-${group.id}`], bundle),
    pinned: ({ side }, bucket) => (side === 'lower' ? band.min[bucket]! : band.max[bucket]!),
    table: () =>
      overBuckets(record, [
        ...reachColumns(`all_${group.id}.${group.quantity}`, band),
        ...channelColumns(record, chosen.id),
      ]),
    draw(frame) {
      fillBand(frame, band, ink(tint), 0.28);
      strokeEdge(frame, band, 'high', { tint: 'muted', width: 1 });
      strokeEdge(frame, band, 'low', { tint: 'muted', width: 1 });
      if (rated !== null)
        level(frame, rated, `rated ${withUnit(rated, unit)}`, { tint: 'muted', dash: [3, 3], below: true });
      drawLimits(frame, limits);
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
        { mark: 'solid', tint, name: chosen.owner, value: withUnit(record.mean(chosen.id, bucket), unit) },
      ];
    },
  });
  picker.addEventListener('change', () => {
    chosen = members.find(({ id }) => id === picker.value) ?? chosen;
    redraw();
  });
}

/** Limits that were judged or left open, over the whole judged window. */
function limitsOn(
  quantities: readonly QuantityName[],
  { report, scenario }: JudgedRun,
): readonly LimitLine[] {
  const window = { from_s: report.window_s.from, to_s: report.window_s.to };
  return report.findings.flatMap(({ id, limit, unit, verdict }) => {
    const row = scenario.limits.find((one) => one.id === id);
    if (row === undefined || limit === null || verdict === 'not_applicable') return [];
    if (!quantities.some((quantity) => quantity === row.quantity)) return [];
    const words = `limit ${withUnit(limit, unit)}`;
    return [{ value: limit, words, side: row.side, spans: [window] }];
  });
}
