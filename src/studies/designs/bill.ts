/** The bill of parts of a design: what stands on its bar, of which model, and what each part costs, weighs and takes up. */

import { formatQuantity } from '../../base/quantity.ts';
import { placeText } from '../../scenario/changes/alterations.ts';
import type { Figure } from '../../scenario/parameters/figures.ts';
import { figureParameters } from '../../scenario/parameters/figures.ts';
import type { ReadScenario } from '../../scenario/read.ts';
import type { Change } from '../../scenario/scenario.ts';
import { asWritten, type Cell } from '../../scenario/sheet.ts';
import { type Family, placedFamilies, unitTables } from '../../scenario/tables.ts';
import type { StatedFigure } from '../written/figures.ts';

/** A figure of one unit, and who says so. */
export interface BillFigure {
  readonly value: number;
  /** `published: …`, with the citation or the reason; an option, or a line of a file. */
  readonly source: string;
}

/** Units that are alike: of one kind, one model and with the same figures. */
export interface BillLine {
  readonly family: Family;
  readonly model: string;
  /** The model's own title. */
  readonly title: string;
  readonly units: readonly string[];
  /** What is another than in the model: by the cabinet, the study or the design. */
  readonly differs: readonly string[];
  /** null: nobody states it. */
  readonly figures: Readonly<Record<Figure, BillFigure | null>>;
}

export interface Bill {
  readonly lines: readonly BillLine[];
  /** Sums over all units; null where a unit lacks the figure. */
  readonly totals: Readonly<Record<Figure, number | null>>;
}

const figures = Object.keys(figureParameters) as Figure[];

/**
 * `stated`: by the study, of a kind, for units whose model states nothing itself: of several prices the nearest to the unit
 * counts.
 */
export function billOf(
  { scenario, cells, models }: Pick<ReadScenario, 'scenario' | 'cells' | 'models'>,
  stated: readonly StatedFigure[],
  own: readonly Change[],
): Bill {
  const lines = new Map<string, BillLine>();
  for (const family of placedFamilies as readonly Placed[]) {
    for (const { id } of scenario[family]) {
      const path = `${family}.${id}`;
      const model = models.get(path) ?? { file: '', title: '' };
      const of = (figure: Figure): BillFigure | null => {
        const cell = cells.get(`${path}.${figure}`);
        if (typeof cell?.value !== 'number') {
          const said = stated.find((one) => one.family === family && one.figure === figure);
          return said === undefined ? null : { value: said.value, source: `${said.source}: ${said.why}` };
        }
        const where = cell.origin === null ? '' : placeText(cell.origin);
        return {
          value: cell.value,
          source: cell.note === null ? where : `${cell.note.source}: ${cell.note.why}`,
        };
      };
      const line: BillLine = {
        family,
        model: model.file,
        title: model.title,
        units: [id],
        differs: differencesOf(own, family, id, cells),
        figures: { cost: of('cost'), mass: of('mass'), rack_units: of('rack_units') },
      };
      const key = JSON.stringify([family, model.file, line.differs, line.figures]);
      const before = lines.get(key);
      lines.set(key, before === undefined ? line : { ...before, units: [...before.units, id] });
    }
  }
  const all = [...lines.values()];
  return {
    lines: all,
    totals: {
      cost: totalOf(all, 'cost'),
      mass: totalOf(all, 'mass'),
      rack_units: totalOf(all, 'rack_units'),
    },
  };
}

type Placed = 'shelves' | 'trays' | 'banks' | 'batteries';

function totalOf(lines: readonly BillLine[], figure: Figure): number | null {
  let sum = 0;
  for (const { units, figures: of } of lines) {
    const own = of[figure];
    if (own === null) return null;
    sum += units.length * own.value;
  }
  return sum;
}

/** How a unit is set and what is around it: nothing that another part would be bought for. */
const settings: ReadonlySet<string> = new Set([
  ...['set_point_offset', 'start_delay', 'sense_gain', 'sense_offset', 'share_phase'],
  ...['coolant_temperature', 'ambient', 'charge'],
]);

/**
 * Values of such a unit that stand over its model's: what the design writes, in its words, then what cabinet and study do.
 * Which model that is, how many there are and where they stand the line says by itself.
 */
function differencesOf(
  own: readonly Change[],
  family: Family,
  id: string,
  cells: ReadScenario['cells'],
): readonly string[] {
  const written = new Map<string, string>();
  for (const { path, value } of own) {
    const [kind, ...rest] = path.split('.');
    const key = rest.at(-1) ?? '';
    const mine = kind === family && (rest.length === 1 || rest[0] === id);
    const told =
      ['count', 'move', 'add', 'fitted', 'model'].includes(key) ||
      (figures as readonly string[]).includes(key);
    if (mine && !told) written.set(key, value);
  }
  for (const key of Object.keys(unitTables[family])) {
    const cell = cells.get(`${family}.${id}.${key}`);
    const isOver = cell !== undefined && cell.note === null && cell.origin !== null;
    if (isOver && !written.has(key) && !settings.has(key)) written.set(key, textOf(cell));
  }
  return [...written].map(([key, value]) => `${key} = ${value}`);
}

function textOf(cell: Cell): string {
  const value = asWritten(cell);
  return typeof value === 'number' && cell.field.kind === 'quantity'
    ? formatQuantity(value, cell.field.spec.dimension, 6)
    : String(value);
}
