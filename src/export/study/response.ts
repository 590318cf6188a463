import type { ResponseReport } from '../../studies/response/report.ts';
import type { ExportTable } from '../table.ts';
import { columnsFor, listTable } from './list-table.ts';

/** Every curve, one row a point: the gain in the unit that its row names, 0 where nothing comes through; and the modes. */
export function responseTables({ curves, modes }: ResponseReport): readonly ExportTable[] {
  const points = curves.flatMap(({ name, unit, frequency_Hz, gain_dB, phase_deg }) =>
    frequency_Hz.map((f_Hz, k) => ({ name, unit, f_Hz, gain_dB: gain_dB[k]!, phase_deg: phase_deg[k]! })),
  );
  const point = columnsFor(points);
  const mode = columnsFor(modes);
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
  ];
}
