/** Line voltage at the shelves of the feeders that give way, a trace for each, with the limits on it as voltages. */
import type { JudgedRun } from '../../src/bundle/format.ts';
import { outsideWindow } from '../judged-time.ts';
import type { Lens } from '../lens.ts';
import { withUnit } from '../numbers.ts';
import { strokeTrace } from '../paint.ts';
import { makePanel } from '../plot.ts';
import type { Record } from '../record.ts';
import { channelColumns, overBuckets } from '../taken/over-buckets.ts';
import type { Ink } from '../theme.ts';
import { drawLimits, type LimitLine } from './limit-lines.ts';
import { type Pin, pinsOf } from './pins.ts';

const tints: readonly Ink[] = ['copper', 'ink', 'battery', 'tray'];

export function lineVoltagePanel(host: HTMLElement, lens: Lens, record: Record, bundle: JudgedRun): void {
  const traces = record.ofKind('supply-voltage').flatMap(({ id, owner }, k) => {
    const series = record.series(id);
    return series === null ? [] : [{ id, owner, series, tint: tints[k % tints.length]! }];
  });
  const [first] = traces;
  if (first === undefined) return;
  const nominal_V = bundle.scenario.feeders.find(({ id }) => id === first.owner)!.values.line_voltage_V;
  const limits = limitLines(bundle, nominal_V);
  makePanel(host, lens, record, {
    id: 'line',
    title: 'Line voltage at the shelves',
    note: 'line to line, RMS, of feeders that give way; limits are of means over their own time',
    height: 110,
    unit: 'V',
    series: () => traces.map(({ series }) => series),
    include: [nominal_V],
    shades: outsideWindow(bundle.report, lens.whole_s),
    pins: pinsOf(['grid'], bundle).filter(({ finding }) => isOnLine(finding.id, bundle)),
    pinned: (pin, bucket) => traceOf(pin).series.min[bucket]!,
    table: () =>
      overBuckets(
        record,
        traces.flatMap(({ id }) => channelColumns(record, id)),
      ),
    draw(frame) {
      drawLimits(frame, limits);
      for (const { series, tint } of traces) strokeTrace(frame, series, { tint, width: 1.8 });
    },
    rows: (bucket) =>
      traces.map(({ id, owner, tint }) => ({
        mark: 'solid',
        tint,
        name: owner,
        value: withUnit(record.mean(id, bucket), 'V'),
      })),
  });

  function traceOf({ finding }: Pin) {
    return traces.find(({ owner }) => owner === finding.node) ?? first!;
  }
}

function quantityOf(id: string, { scenario }: JudgedRun): string | undefined {
  return scenario.limits.find((row) => row.id === id)?.quantity;
}

function isOnLine(id: string, bundle: JudgedRun): boolean {
  return ['supply-voltage', 'supply-fall', 'supply-loading'].includes(quantityOf(id, bundle) ?? '');
}

/** Limits that were judged or left open, as voltages: shares of nominal, or falls below it. */
function limitLines(bundle: JudgedRun, nominal_V: number): readonly LimitLine[] {
  const { findings, window_s } = bundle.report;
  const window = { from_s: window_s.from, to_s: window_s.to };
  return findings.flatMap(({ id, limit, verdict }): LimitLine[] => {
    const quantity = quantityOf(id, bundle);
    if (limit === null || verdict === 'not_applicable') return [];
    if (quantity !== 'supply-voltage' && quantity !== 'supply-fall') return [];
    const value = nominal_V * (quantity === 'supply-fall' ? 1 - limit : limit);
    const stay_s = bundle.scenario.limits.find((row) => row.id === id)?.stay_s;
    const over = stay_s == null ? '' : `, means over ${withUnit(stay_s, 's')}`;
    return [{ value, words: `limit ${withUnit(value, 'V')}${over}`, side: 'lower', spans: [window] }];
  });
}
