/**
 * Margins of the voltage loops against runs: at gains of all shelves a share below the edge that the margin names a small
 * push dies, and as much above it grows, or the other way round where gains must come down. Nothing of a linear model is
 * in the runs: the engine steps from rest, at its finest.
 *
 *   node --import tsx scripts/edges-in-time.ts
 *   node --import tsx scripts/edges-in-time.ts --only 3 --share 0.02
 */
import { parseArgs } from 'node:util';
import { restAt } from '../src/linear/rest.ts';
import { respond } from '../src/studies/response/respond.ts';
import { growthOfPush } from './margins/growth-of-push.ts';
import { nameOf, points, scaledBy, scenarioAt } from './margins/points.ts';

/** Edges of modes slower than this take too long to be seen at the finest step [Hz]. */
const slowest_Hz = 200;

const { values } = parseArgs({
  options: { only: { type: 'string' }, share: { type: 'string', default: '0.02' } },
});
const share = Number(values.share);
const chosen = values.only === undefined ? points : [points[Number(values.only)]!];
let [met, missed, left] = [0, 0, 0];
for (const point of chosen) {
  const scenario = scenarioAt(point);
  const { loops } = respond(scenario, { load_W: point.load_W });
  const { gain_margin_dB, phase_crossover_Hz, stable_at_dB } = loops.find(
    ({ name, kind }) => name.startsWith('voltage loop') && kind === 'coupled',
  )!;
  const edge_dB = gain_margin_dB ?? stable_at_dB;
  if (edge_dB === null || (phase_crossover_Hz !== null && phase_crossover_Hz < slowest_Hz)) {
    left++;
    process.stdout.write(`${nameOf(point)}: no edge that a short run can show\n`);
    continue;
  }
  const growth = (factor: number): number => {
    const scaled = scaledBy(scenario, 10 ** (edge_dB / 20) * factor, null);
    return growthOfPush(restAt(scaled, point.load_W, { kernel: 'fast' }));
  };
  const [below, above] = [growth(1 - share), growth(1 + share)];
  const isMet = below < 0 && above > 0;
  if (isMet) met++;
  else missed++;
  process.stdout.write(
    `${nameOf(point)}: edge at ${edge_dB.toFixed(2)} dB; ${100 * share} % below a push grows by ${below.toFixed(0)} 1/s, above by ${above.toFixed(0)} 1/s${isMet ? '' : '  NOT AS THE MARGIN SAYS'}\n`,
  );
}
process.stdout.write(`${met} edges met, ${missed} missed, ${left} left out\n`);
process.exitCode = missed === 0 ? 0 : 1;
