/**
 * Sines, and one chirp through their frequencies, put into runs of single-step at every summing point, over the linear curves: prints
 * each difference, ends with 1 above 0.2 dB or 2°. Minutes of processor time: node --import tsx scripts/injected-sines.ts [POINT]
 */
import { readChanged } from '../src/cli/study/scenarios.ts';
import { scenarioFile } from '../src/shipped/scenario-named.ts';
import {
  type SummingPoint,
  summingPointNames,
  summingPoints,
} from '../src/studies/response/inject/drives.ts';
import { inject } from '../src/studies/response/inject/inject.ts';
import { respond } from '../src/studies/response/respond.ts';

const frequencies = [20, 60, 250, 900, 2300, 5000];
const load_W = 200e3;
const { scenario } = readChanged({ scenario: scenarioFile('single-step'), changes: [] });
const { curves } = respond(scenario, { load_W, points: 3, also_Hz: frequencies });
const only = process.argv[2];
let worst = 0;
for (const point of summingPointNames.filter(
  (name): name is SummingPoint => only === undefined || name === only,
)) {
  const base = { load_W, point, amplitude: summingPoints[point].usual, clamps_within: 0 };
  const swings = [
    ...frequencies.map((frequency_Hz) => ({ ...base, frequencies_Hz: [frequency_Hz], sweep_s: null })),
    { ...base, frequencies_Hz: frequencies, sweep_s: 2.5 },
  ];
  for (const swing of swings) {
    const { lines, clamp } = inject(scenario, swing);
    for (const { curve, frequency_Hz, gain_dB, phase_deg } of lines) {
      const model = curves.find(({ name }) => name === curve)!;
      const k = model.frequency_Hz.indexOf(frequency_Hz);
      const turn = phase_deg - model.phase_deg[k]!;
      const [dB, deg] = [gain_dB - model.gain_dB[k]!, turn - 360 * Math.round(turn / 360)];
      worst = Math.max(worst, Math.abs(dB) / 0.2, Math.abs(deg) / 2);
      console.log(
        `${swing.sweep_s === null ? 'sine ' : 'chirp'}  ${point}  ${curve}  ${frequency_Hz} Hz  ${gain_dB.toFixed(3)} dB  ${dB.toFixed(3)} dB  ${deg.toFixed(2)}°${clamp === null ? '' : `  clamp ${clamp.who} ${clamp.what}`}`,
      );
    }
  }
}
process.exitCode = worst > 1 ? 1 : 0;
