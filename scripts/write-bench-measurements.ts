/** Writes the synthetic measurements in scenarios/measured: `node --import tsx scripts/write-bench-measurements.ts`. */
import { writeFileSync } from 'node:fs';
import { Random } from '../src/loads/random.ts';
import { identificationBenches } from './identification/benches.ts';
import { measuredOn } from './identification/measured.ts';
import { stepsWith } from './identification/simulated.ts';

identificationBenches.forEach((bench, k) => {
  const { columns } = measuredOn(bench, stepsWith(bench, bench.truth), new Random(k + 1));
  const time_s = columns[0]!.time_s;
  const rows = [...time_s].map((t, i) =>
    [t.toFixed(3), ...columns.map(({ values }, c) => values[i]!.toFixed(bench.probes[c]!.decimals))].join(
      ',',
    ),
  );
  const header = ['time_s', ...columns.map(({ channel }) => channel)].join(',');
  writeFileSync(`scenarios/measured/${bench.name}.csv`, `${header}\n${rows.join('\n')}\n`);
});
