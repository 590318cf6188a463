/** Commas that may be decimal or part thousands: what the file's own cells settle, and what must be asked for. */
import { type Comma, readNumberCell } from './number-cell.ts';

export class CommaCount {
  decimal = 0;
  thousands = 0;
  open = 0;
  /** The first cell that is open, as it stands. */
  private example = '';

  add(comma: Comma, cell: string): void {
    if (comma === 'none') return;
    if (comma === 'open' && this.open === 0) this.example = cell.trim();
    this[comma]++;
  }

  /** What is unclear and the way out; null where the cells settle it. */
  unclear(where: string): { readonly found: string; readonly mend: string } | null {
    if (this.thousands * this.decimal > 0) {
      return {
        found: `numbers in ${where} with decimal commas and with commas for thousands`,
        mend: 'give --decimal comma or --decimal point',
      };
    }
    if (this.open === 0 || this.decimal > 0) return null;
    const [decimal, thousands] = (['comma', 'point'] as const).map((mark) => valueBy(this.example, mark));
    return {
      found: `numbers in ${where} such as ${this.example}, which may be ${decimal} or ${thousands}`,
      mend: `give --decimal comma where it is ${decimal}, or --decimal point where it is ${thousands}`,
    };
  }
}

function valueBy(cell: string, mark: 'comma' | 'point'): string {
  const read = readNumberCell(cell, mark);
  return read.kind === 'number' ? `${read.value}${read.unit === null ? '' : ` ${read.unit}`}` : cell;
}
