/** The limits as they hold after all changes: their rows, where they come from, where they differ and from what. */
import type { Alteration } from '../changes/alterations.ts';
import type { LimitRow } from '../limit-row.ts';
import type { Scenario } from '../scenario.ts';
import { type LimitDifference, limitDifferences } from './limit-differences.ts';

export type LimitsNow = Scenario['limits_basis'] & { readonly rows: readonly LimitRow[] };

export interface LimitsRead {
  /** Rows as the limits file states them, and as they stand after the changes. */
  readonly stated: readonly LimitRow[];
  readonly rows: readonly LimitRow[];
  readonly file: string;
  readonly alterations: readonly Alteration[];
  /** Rows that the project ships; null: not known here, and the file's own are what is compared with. */
  readonly shipped: readonly LimitRow[] | null;
}

export function limitsNow({ stated, rows, file, alterations, shipped }: LimitsRead): LimitsNow {
  const changedBy = new Map(alterations.map(({ path, by }) => [path, by]));
  const by = (limit: string, what: string): string => changedBy.get(`limits.${limit}.${what}`) ?? file;
  const ofOwn = limitDifferences(stated, rows, by);
  return {
    rows: withSources(rows, ofOwn),
    file,
    compared: shipped !== null,
    differences: shipped === null || shipped === stated ? ofOwn : limitDifferences(shipped, rows, by),
  };
}

/** A row whose number was changed says so in its source: what the source says is of another number. */
function withSources(rows: readonly LimitRow[], changed: readonly LimitDifference[]): LimitRow[] {
  return rows.map((row) => {
    const own = changed.filter(({ limit }) => limit === row.id);
    if (own.length === 0) return row;
    const words = own.map(({ what, from, to, by }) => `${what} from ${from} to ${to} by ${by}`);
    return { ...row, source: `changed: ${words.join(', ')}; before that ${row.source}` };
  });
}
