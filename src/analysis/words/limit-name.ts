/** A limit by its id; that of the column for while batteries carry says so, for the other may stand beside it. */
import type { Finding } from '../judge/report.ts';

export function limitName({ id, column }: Pick<Finding, 'id' | 'column'>): string {
  return column === 'carry' ? `${id} (carry)` : id;
}
