/** Ramps in numbers: one row for each moment of the run's grid of window means at which any is told. */
import type { Table } from '../taken/table.ts';
import type { Ramps } from './ramp-series.ts';

export interface NamedRamps extends Ramps {
  /** Of its limit, for example ac-ramp-1s. */
  readonly id: string;
}

/** The ramps of a shorter window begin earlier and end later: where a longer one does not fit there is none. */
export function rampTable(curves: readonly NamedRamps[]): Table {
  const longest = curves.reduce((most, curve) =>
    curve.series.min.length > most.series.min.length ? curve : most,
  );
  const { fits, width_s, series } = longest;
  const rows = series.min.length;
  return {
    over: {
      name: 'time_s',
      values: Float64Array.from({ length: rows }, (_, k) => fits.from_s + k * width_s),
    },
    columns: curves.map((curve) => {
      const values = new Float64Array(rows).fill(Number.NaN);
      values.set(curve.series.min, Math.round((curve.fits.from_s - fits.from_s) / width_s));
      return { name: `${curve.id.replaceAll('-', '_')}_W_per_s`, values };
    }),
  };
}
