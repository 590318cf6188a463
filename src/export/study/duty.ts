import type { DutyReport } from '../../studies/duty/report.ts';
import type { ExportTable } from '../table.ts';
import { columnsFor, listTable } from './list-table.ts';

/** Limits judged by the course; the course itself, of the first round and of the last; stretches with how their runs came out. */
export function dutyTables({
  findings,
  stretches,
  course,
  last_course,
  moments,
}: DutyReport): readonly ExportTable[] {
  const finding = columnsFor(findings);
  const stretch = columnsFor(stretches);
  const moment = columnsFor(moments);
  return [
    listTable('limits', [
      finding.text('id', ({ id }) => id),
      finding.text('column', ({ column }) => column),
      finding.text('verdict', ({ verdict }) => verdict),
      finding.number('value', ({ value }) => value),
      finding.number('limit', ({ limit }) => limit),
      finding.text('unit', ({ unit }) => unit),
      finding.number('headroom_ratio', ({ headroom_ratio }) => headroom_ratio),
      finding.text('stretch', ({ stretch: name }) => name),
      finding.text('node', ({ node }) => node),
      finding.number('at_s', ({ at_s }) => at_s),
      finding.text('reason', ({ reason }) => reason),
    ]),
    listTable('stretches', [
      stretch.text('name', ({ name }) => name),
      stretch.number('from_s', ({ from_s }) => from_s),
      stretch.number('for_s', ({ for_s }) => for_s),
      stretch.text('letter', ({ letter }) => letter),
      stretch.list('conditions', ({ conditions }) => conditions),
      stretch.list('settled', ({ settled }) => settled),
      stretch.number('run_again', ({ again }) => again.runs),
      stretch.number('moved_ratio', ({ again }) => again.moved_ratio),
    ]),
    courseTable('course', course),
    courseTable('last_course', last_course),
    listTable('moments', [
      moment.number('at_s', ({ at_s }) => at_s),
      moment.text('who', ({ who }) => who),
      moment.text('what', ({ what }) => what),
      moment.number('took_s', ({ took_s }) => took_s),
    ]),
  ];
}

function courseTable(name: string, course: DutyReport['course']): ExportTable {
  const point = columnsFor(course);
  return listTable(name, [
    point.text('stretch', ({ stretch }) => stretch),
    point.number('at_s', ({ at_s }) => at_s),
    point.number('bar_K', ({ bar_K }) => bar_K),
    point.number('joint_K', ({ joint_K }) => joint_K),
    point.number('tray_degC', ({ tray_degC }) => tray_degC),
    point.number('bank_degC', ({ bank_degC }) => bank_degC),
    point.number('charge_ratio', ({ charge_ratio }) => charge_ratio),
    point.number('pack_degC', ({ pack_degC }) => pack_degC),
  ]);
}
