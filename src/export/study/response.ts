import type { Margins } from '../../linear/loops/margins.ts';
import type { ResponseReport } from '../../studies/response/report.ts';
import type { ExportTable } from '../table.ts';
import { columnsFor, listTable } from './list-table.ts';
import { overTables } from './response-over.ts';

const marginKeys: readonly (keyof Margins)[] = [
  'gain_margin_dB',
  'phase_crossover_Hz',
  'gain_down_dB',
  'gain_down_Hz',
  'phase_margin_deg',
  'crossover_Hz',
  'delay_margin_s',
  'delay_margin_Hz',
  'clearance_ratio',
  'clearance_Hz',
  'disk_ratio',
  'disk_Hz',
  'disk_gain_dB',
  'disk_phase_deg',
  'stable_at_dB',
];

/** Every curve, one row a point: the gain in the unit that its row names, 0 where nothing comes through; the modes; the margins of every loop, minor loops among them; and what is said of limit cycles. */
export function responseTables({
  curves,
  modes,
  loops,
  minor_loops,
  limit_cycles,
  over,
}: ResponseReport): readonly ExportTable[] {
  const points = curves.flatMap(({ name, unit, frequency_Hz, gain_dB, phase_deg }) =>
    frequency_Hz.map((f_Hz, k) => ({ name, unit, f_Hz, gain_dB: gain_dB[k]!, phase_deg: phase_deg[k]! })),
  );
  const point = columnsFor(points);
  const mode = columnsFor(modes);
  const opened = [
    ...loops,
    ...minor_loops.map((loop) => ({ ...loop, name: `minor loop at ${loop.node}`, kind: 'minor' })),
  ];
  const { text, number } = columnsFor(opened);
  const cycle = columnsFor(limit_cycles);
  return [
    listTable('curves', [
      point.text('curve', ({ name }) => name),
      point.number('frequency_Hz', ({ f_Hz }) => f_Hz),
      point.number('gain', ({ gain_dB }) => (gain_dB === null ? 0 : 10 ** (gain_dB / 20))),
      point.text('gain_unit', ({ unit }) => (unit === '' ? 'ratio' : unit)),
      point.number('phase_rad', ({ phase_deg }) => (phase_deg * Math.PI) / 180),
    ]),
    listTable('modes', [
      mode.number('real_per_s', ({ real_per_s }) => real_per_s),
      mode.number('frequency_Hz', ({ frequency_Hz }) => frequency_Hz),
      mode.number('damping_ratio', ({ damping_ratio }) => damping_ratio),
      mode.number('time_constant_s', ({ time_constant_s }) => time_constant_s),
    ]),
    listTable('margins', [
      text('loop', ({ name }) => name),
      text('kind', ({ kind }) => kind),
      ...marginKeys.map((key) => number(key, (loop) => loop[key])),
    ]),
    listTable('limit-cycles', [
      cycle.text('element', ({ element }) => element),
      cycle.text('direction', ({ direction }) => direction),
      cycle.text('kind', ({ kind }) => kind),
      cycle.text('why', ({ why }) => why),
      cycle.text('given', ({ given }) => given),
      cycle.text('unit', ({ unit }) => unit),
      cycle.number('size', ({ size }) => size),
      cycle.number('amplitude', ({ amplitude }) => amplitude),
      cycle.number('frequency_Hz', ({ frequency_Hz }) => frequency_Hz),
      cycle.number('shelf_current_A', ({ shelf_current_A }) => shelf_current_A),
    ]),
    ...(over === null ? [] : overTables(over)),
  ];
}
