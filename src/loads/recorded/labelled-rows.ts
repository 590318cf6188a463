/** Rows that a label says to be of another quantity than they are read as: a temperature among powers, kilowatts among watts. */
import { powerUnitIn, wattsOf } from '../../tables/cells/power-unit.ts';
import { wordsOf } from '../../tables/columns/column-names.ts';
import { quotedName } from '../../tables/columns/column-report.ts';
import { type NamedQuantity, namedQuantity } from '../../tables/columns/named-quantity.ts';
import type { Quantity } from '../../tables/columns/stated-unit.ts';

/** A column whose name says that its cells tell what the row is of. */
const labelWords = new Set(
  'metric quantity measure measurement measurand parameter variable field signal sensor type kind key label series counter property item unit units uom'.split(
    ' ',
  ),
);
/** A column of more labels holds something else. */
const mostLabels = 256;

interface Label {
  rows: number;
  readonly says: NamedQuantity | null;
  /** The label is a unit and nothing else. */
  readonly isUnit: boolean;
  /** Watts of one unit, where it is such a label and of power. */
  readonly watts: number | null;
}

export class LabelledRows {
  private readonly index: number;
  private readonly column: string;
  private readonly as: Quantity;
  /** Watts of one unit that values are read in; null where cells carry their own. */
  private readonly factor: number | null;
  private readonly isChosen: boolean;
  private readonly labels = new Map<string, Label>();

  /** `isChosen`: an option or a name made it a column of channels, or of rows to take. */
  constructor(
    column: { readonly index: number; readonly name: string },
    read: { readonly as: Quantity; readonly factor: number | null },
    isChosen: boolean,
  ) {
    this.index = column.index;
    this.column = column.name;
    this.as = read.as;
    this.factor = read.factor;
    this.isChosen = isChosen || wordsOf(column.name).some((word) => labelWords.has(word));
  }

  /** A row that gave a sample. */
  meet(row: readonly string[]): void {
    const text = (row[this.index] ?? '').trim();
    let label = this.labels.get(text);
    if (label === undefined) {
      if (this.labels.size === mostLabels) return;
      label = labelOf(text);
      this.labels.set(text, label);
    }
    label.rows++;
  }

  /** What was found and the way out; null where labels say nothing else. */
  found(): { readonly found: string; readonly expected: string; readonly mend: string } | null {
    const all = [...this.labels].filter(([text]) => text !== '');
    // Units named A, B and C are devices.
    const areUnits = all.every(([, { isUnit, says }]) => isUnit || says !== null);
    const said = all.filter(([, { isUnit }]) => areUnits || !isUnit);
    const right = said.find(([, { says, watts }]) => says?.of === this.as && this.isAlike(watts));
    const wrong = said.find(
      ([, { says, watts }]) => says !== null && (says.of !== this.as || !this.isAlike(watts)),
    );
    if (wrong === undefined || !(this.isChosen || right !== undefined)) return null;
    const [text, { says, rows }] = wrong;
    const read = says!.of === this.as ? 'in another unit' : `as a ${this.as}`;
    return {
      found: `${rows} rows whose ${this.column} is ${text}, ${says!.by}, read ${read}`,
      expected: `rows of ${this.as === 'current' ? 'a current' : 'power'} in one unit`,
      mend:
        right === undefined
          ? `take the rows of ${this.as} alone: --where ${quotedName(`${this.column}=VALUE`)}`
          : `give --where ${quotedName(`${this.column}=${right[0]}`)}`,
    };
  }

  private isAlike(watts: number | null): boolean {
    return watts === null || this.factor === null || watts === this.factor;
  }
}

function labelOf(text: string): Label {
  const isUnit = !/[\s_.:/([-]/.test(text) && bareUnit.test(text);
  const unit = isUnit ? (powerUnitIn(text)?.unit ?? null) : null;
  const watts = unit === null ? null : wattsOf(unit);
  const says = isUnit && /^°?[CF]$/.test(text) ? degrees : namedQuantity(text);
  return { rows: 0, says, isUnit, watts: typeof watts === 'number' ? watts : null };
}

const degrees: NamedQuantity = { of: 'something else', by: 'a temperature by its unit' };

const bareUnit =
  /^(?:[µμumkM]?[WAV]|[mkM]?w|[mkM]?J|[mkM]?Wh|[mk]?Ah|[kM]?VA|[kM]?[Vv]ar|°?[CF]|degC|rpm|RPM|[kMG]?Hz|%)$/;
