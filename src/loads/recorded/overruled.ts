/** What an option says against what the file says: refused with both named, unless the user overrules the file. */
import type { ColumnReport } from '../../tables/columns/column-report.ts';

export class Overruled {
  /** What of the file was overruled, in plain sentences. */
  readonly sentences: string[] = [];
  private readonly isAllowed: boolean;

  constructor(isAllowed: boolean) {
    this.isAllowed = isAllowed;
  }

  /** `refuse` gets the problem, with overruling as the last way out. */
  meet(found: string, expected: string, mend: string, refuse: ColumnReport): void {
    if (this.isAllowed) this.sentences.push(`Overruled (--overrule): ${found}; expected: ${expected}.`);
    else refuse(found, expected, `${mend}, or give --overrule where what is stated holds all the same`);
  }
}
