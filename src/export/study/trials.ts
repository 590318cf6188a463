/** The trials of a study, one row each: how it came out, each limit's value and headroom, the metrics. */
import type { RunOutcome } from '../../studies/trials/run-outcome.ts';
import type { ExportTable } from '../table.ts';
import { columnsFor, type ListColumn, listTable } from './list-table.ts';

/** Outcomes by the key of their trial, in the order in which they are kept. */
export function trialsTable(outcomes: ReadonlyMap<string, RunOutcome>): ExportTable {
  const trials = [...outcomes].map(([key, outcome]) => ({ key, ...outcome }));
  const { text, list } = columnsFor(trials);
  return listTable('trials', [
    text('trial', ({ key }) => key),
    text('status', ({ status }) => status),
    text('verdict', ({ verdict }) => verdict),
    text('became', ({ became }) => became),
    text('collapse', ({ collapse }) => collapse),
    list('conditions', ({ conditions }) => conditions),
    list('warnings', ({ warnings }) => warnings),
    ...metricColumns(trials),
    ...limitColumns(trials),
  ]);
}

/** Every metric, its unit in its name. */
function metricColumns(trials: readonly RunOutcome[]): ListColumn[] {
  const names = new Set(trials.flatMap(({ metrics }) => Object.keys(metrics ?? {})));
  const tables = trials.map(({ metrics }) => new Map<string, unknown>(Object.entries(metrics ?? {})));
  const { number } = columnsFor(tables);
  return [...names].map((name) =>
    number(name, (metrics) => {
      const value = metrics.get(name);
      return typeof value === 'number' ? value : null;
    }),
  );
}

/** Value and headroom of every limit that some trial was judged by. */
function limitColumns(trials: readonly RunOutcome[]): ListColumn[] {
  const units = new Map(
    trials.flatMap(({ findings }) =>
      findings.map(({ id, column, unit }): [string, string] => [`${id}.${column}`, unit]),
    ),
  );
  const tables = trials.map(
    ({ findings }) => new Map(findings.map((finding) => [`${finding.id}.${finding.column}`, finding])),
  );
  const { number } = columnsFor(tables);
  return [...units].flatMap(([name, unit]) => [
    number(`${name}.value_${unit.replaceAll('/', '_per_')}`, (of) => of.get(name)?.value ?? null),
    number(`${name}.headroom_ratio`, (of) => of.get(name)?.headroom_ratio ?? null),
  ]);
}
