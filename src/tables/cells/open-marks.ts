/** Commas and points that may be decimal or part thousands: what the file's own cells settle, and what must be asked for. */
import { type Decimal, type Mark, readNumberCell } from './number-cell.ts';

export class MarkCount {
  decimal = 0;
  thousands = 0;
  open = 0;
  point = 0;
  dotted = 0;
  'pointed-thousands' = 0;
  /** Numbers without any mark. */
  private whole = 0;
  /** The first cells whose comma, whose point is open, as they stand. */
  private openCell = '';
  private pointCell = '';
  private dottedCell = '';
  private decimalStamp = false;
  /** A stamp with a decimal point, the first cell that a stated decimal point makes no number of. */
  private pointedStamp = '';
  private commaCell = '';

  add(mark: Mark, cell: string): void {
    if (mark === 'none') {
      this.whole++;
      return;
    }
    if (mark === 'open' && this.open === 0) this.openCell = cell.trim();
    if (mark === 'dotted' && this.dotted === 0) this.dottedCell = cell.trim();
    if (mark === 'point' && this.point === 0) this.pointCell = cell.trim();
    this[mark]++;
  }

  /** A stamp with a decimal comma: a file that has one may part thousands with points. */
  meetStamp(cell: string): void {
    if (this.decimalStamp || this.pointedStamp !== '') return;
    if (cell.includes(',')) this.decimalStamp = /^\s*[-+]?\d+,\d+\s*$/.test(cell);
    else if (cell.includes('.') && pointedStamp.test(cell)) this.pointedStamp = cell.trim();
  }

  /** A cell that a stated decimal point makes no number of: with a comma it may be one. */
  meetText(cell: string): void {
    if (this.commaCell === '' && readNumberCell(cell, 'comma').kind === 'number')
      this.commaCell = cell.trim();
  }

  /** What is unclear and the way out; null where the cells settle it. */
  unclear(where: string): { readonly found: string; readonly mend: string } | null {
    if (this.thousands * this.decimal > 0) {
      return {
        found: `numbers in ${where} with decimal commas and with commas for thousands`,
        mend: 'give --decimal comma or --decimal point',
      };
    }
    const commas = this.decimal > 0 || this.decimalStamp;
    const parted = commas || this.partsThousands();
    if (this.dotted > 0 && this.point === 0 && parted) return eitherWay(this.dottedCell, where);
    if (this.open === 0 || this.decimal > 0) return null;
    return eitherWay(this.openCell, where);
  }

  /**
   * Points with three digits behind each, and whole numbers beside them: of decimals cut at three, every tenth ends in a
   * 0 that is left out, or all are written out and none is whole.
   */
  private partsThousands(): boolean {
    const all = this.dotted + this.whole;
    return this.pointedStamp === '' && all >= fewest && this.whole > wholeShare * all;
  }

  /** A decimal mark that was stated and that cells speak against, with the cell; null where none does. */
  against(decimal: Decimal, where: string): { readonly found: string; readonly mend: string } | null {
    const cell = decimal === 'comma' ? this.pointCell : this.commaCell;
    const other = decimal === 'comma' ? 'point' : 'comma';
    // Where powers themselves have decimal commas, stamps may be written otherwise.
    const stamp = decimal === 'comma' && this.decimal === 0 ? this.pointedStamp : '';
    if (decimal === null || (cell === '' && stamp === '')) return null;
    const what = cell === '' ? `stamps such as ${stamp}` : `numbers in ${where} such as ${cell}`;
    return {
      found: `a decimal ${decimal}, as stated, and ${what}, whose decimal mark is a ${other}`,
      mend: 'leave out --decimal',
    };
  }

  /** A decimal mark that was stated and that no cell has, and the way out; null where one has it, or none was stated. */
  idle(decimal: Decimal, where: string): { readonly found: string; readonly mend: string } | null {
    const commas = this.decimal + this['pointed-thousands'] > 0 || this.decimalStamp;
    const points = this.point + this.thousands > 0;
    if (decimal === null || (decimal === 'comma' ? commas : points)) return null;
    return {
      found: `a decimal ${decimal}, as stated, and numbers in ${where} that have ${points ? 'points' : 'none'}`,
      mend: 'leave out --decimal',
    };
  }
}

/** Of so many cells so large a share is whole by no chance. */
const [fewest, wholeShare] = [20, 0.02] as const;

/** A number whose point cannot part thousands. */
const pointedStamp = /^\s*[-+]?(?:0?\.\d+|0\d*\.\d+|\d+\.(?:\d{1,2}|\d{4,}))\s*$/;

function eitherWay(cell: string, where: string): { readonly found: string; readonly mend: string } {
  const [comma, point] = (['comma', 'point'] as const).map((mark) => valueBy(cell, mark));
  return {
    found: `numbers in ${where} such as ${cell}, which may be ${comma} or ${point}`,
    mend: `give --decimal comma where it is ${comma}, or --decimal point where it is ${point}`,
  };
}

function valueBy(cell: string, mark: 'comma' | 'point'): string {
  const read = readNumberCell(cell, mark);
  return read.kind === 'number' ? `${read.value}${read.unit === null ? '' : ` ${read.unit}`}` : cell;
}
