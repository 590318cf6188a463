/**
 * How often the estimate of a small probability comes near the true one, and its interval holds it, on limit functions whose
 * probability is known: node --import tsx scripts/rare-coverage.ts [SEEDS]
 */
import { rareCases, rareOf } from './rare/cases.ts';

const seeds = Number(process.argv[2] ?? 200);

process.stdout.write(
  'limit function                        true     within  factor  covered  median width  evaluations  by draws\n',
);
for (const one of rareCases) {
  let [within, covered, most, drawn] = [0, 0, 0, 0];
  const widths: number[] = [];
  for (let seed = 1; seed <= seeds; seed++) {
    const { probability, interval, evaluations, by } = await rareOf(one, seed);
    most = Math.max(most, evaluations);
    if (by === 'draws') drawn += 1;
    if (probability === null || interval === null) continue;
    const off = Math.max(probability / one.probability, one.probability / probability);
    if (off <= one.factor) within += 1;
    if (interval[0] <= one.probability && one.probability <= interval[1]) covered += 1;
    widths.push(interval[1] / interval[0]);
  }
  widths.sort((a, b) => a - b);
  process.stdout.write(
    `${one.name.padEnd(36)}  ${one.probability.toExponential(2)}  ${within} of ${seeds}  ${one.factor}  ${covered} of ${seeds}  ${widths[Math.floor(widths.length / 2)]?.toFixed(2)}  ${most}  ${drawn}\n`,
  );
}
