/**
 * Limit cycles by harmonic balance beside runs: of each point what is predicted, what a run shows, and their ratios. Where there
 * is a prediction both ratios are to be within 15 %; where there is none a dash stands.
 *
 *   node --import tsx scripts/limit-cycles.ts
 */
import { restAt } from '../src/linear/rest.ts';
import { limitCyclesOf } from '../src/studies/response/cycles/limit-cycles.ts';
import { placesOf } from '../src/studies/response/places.ts';
import { edgeSwing } from './cycles/edge.ts';
import { type CyclePoint, points, scenarioOf } from './cycles/points.ts';
import { simulated } from './cycles/simulated.ts';

const worst = 0.15;

function lineOf(point: CyclePoint): { readonly words: string; readonly isMet: boolean } {
  const scenario = scenarioOf(point);
  const cabinet = restAt(scenario, point.load_W);
  const found = limitCyclesOf(scenario, cabinet, placesOf(cabinet, [0], null)).find(
    ({ element }) => element === point.element,
  )!;
  const run = { scenario, ...point };
  const seen = found.kind === 'edge' ? edgeSwing(run) : simulated(run);
  const shown =
    seen === null
      ? 'none'
      : `${seen.amplitude.toPrecision(4)} ${found.unit} at ${seen.frequency_Hz.toPrecision(4)} Hz`;
  const head = `${point.element}, ${found.direction}; ${point.words.join(', ')}; ${point.load_W / 1e3} kW`;
  if (found.amplitude === null)
    return { words: `${head}\n  no prediction: ${found.why}; run: ${shown}`, isMet: true };
  const ratios =
    seen === null
      ? [Number.NaN]
      : [found.amplitude / seen.amplitude, found.frequency_Hz! / seen.frequency_Hz];
  return {
    words: `${head}\n  ${found.kind}: ${found.amplitude.toPrecision(4)} ${found.unit} at ${found.frequency_Hz!.toPrecision(4)} Hz; run: ${shown}; ratios ${ratios.map((x) => x.toFixed(3)).join(' and ')}`,
    isMet: ratios.every((x) => Math.abs(x - 1) <= worst),
  };
}

let missed = 0;
for (const point of points) {
  const { words, isMet } = lineOf(point);
  if (!isMet) missed++;
  process.stdout.write(`${words}${isMet ? '' : '  NOT AS PREDICTED'}\n`);
}
process.exitCode = missed === 0 ? 0 : 1;
