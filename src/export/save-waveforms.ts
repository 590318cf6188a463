/** Waveforms on their way from the engine to files: gathered to blocks, written before the engine goes on. */
import type { ColumnSeries } from '../channels/series.ts';
import type { Pace, WaveformOrder } from '../engine/meters/waveforms.ts';
import { openTable } from './open-table.ts';
import { type ExportStretch, wholeRun } from './stretch.ts';
import { numberColumn, rowsPerBlock, type TableForm } from './table.ts';

export interface WaveformFile {
  readonly form: TableForm;
  /** Where it is written, and where it is to stand in the end. */
  readonly path: string;
  readonly target: string;
}

/** What to give out of a run, and into which files. */
export interface WaveformFiles {
  readonly series: readonly ColumnSeries[];
  readonly pace: Pace;
  /** Rows outside are left out; all of the run unless it is said. */
  readonly stretch?: ExportStretch;
  readonly files: readonly WaveformFile[];
}

export class WaveformSaver {
  readonly order: WaveformOrder;
  /** Rows taken so far. */
  rows = 0;
  private readonly block: readonly Float64Array[];
  private readonly writers: readonly ReturnType<typeof openTable>[];
  private used = 0;

  constructor({ series, pace, files, stretch = wholeRun }: WaveformFiles) {
    const columns = [numberColumn('time_s'), ...series.map(({ id }) => numberColumn(id))];
    const room = rowsPerBlock(columns.length);
    const block = columns.map(() => new Float64Array(room));
    this.block = block;
    this.writers = files.map(({ path, form, target }) => openTable(path, form, columns, target));
    this.order = {
      series,
      pace,
      take: (time_s, values) => {
        if (time_s < stretch.from_s || time_s > stretch.to_s) return;
        block[0]![this.used] = time_s;
        for (let c = 0; c < values.length; c++) block[c + 1]![this.used] = values[c]!;
        this.rows++;
        this.used++;
        if (this.used === room) this.write();
      },
    };
  }

  /** The run is over: the last rows, and the files' ends. */
  close(): void {
    if (this.used > 0) this.write();
    for (const writer of this.writers) writer.close();
  }

  private write(): void {
    const cells = this.block.map((column) => column.subarray(0, this.used));
    for (const writer of this.writers) writer.write(cells);
    this.used = 0;
  }
}
