/**
 * Writes a long recording of our own invention: `long-recording.ts FILE ROWS [RATE_Hz]`. Iterations of 1.6 s with
 * edges, a little noise and jittered stamps; a file of 10 million rows has about 230 MB.
 */
import { closeSync, openSync, writeSync } from 'node:fs';
import { Random } from '../src/loads/random.ts';

const [file, rowsText, rateText] = process.argv.slice(2);
if (file === undefined || rowsText === undefined) {
  process.stderr.write('usage: long-recording.ts FILE ROWS [RATE_Hz]\n');
  process.exit(2);
}
const rows = Number(rowsText);
const rate_Hz = Number(rateText ?? 1000);
const random = new Random(7);
const out = openSync(file, 'w');
writeSync(out, 'time_us,power_W\n');
let lines: string[] = [];
for (let i = 0; i < rows; i++) {
  const t_s = (i + 0.2 * random.uniform()) / rate_Hz;
  const phase = (t_s % 1.6) / 1.6;
  const power = phase < 0.3 ? 7000 : 14_500;
  lines.push(`${Math.round(1e6 * t_s)},${(power + 100 * random.uniform()).toFixed(1)}`);
  if (lines.length === 20_000) {
    writeSync(out, `${lines.join('\n')}\n`);
    lines = [];
  }
}
if (lines.length > 0) writeSync(out, `${lines.join('\n')}\n`);
closeSync(out);
