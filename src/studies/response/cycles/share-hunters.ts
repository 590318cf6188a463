/** Quantum and dead band of the share loop's trims. */

import { cosine, sine } from '../../../base/sine.ts';
import type { Cabinet } from '../../../engine/cabinet.ts';
import { type Complex, magnitude, subtract } from '../../../linear/complex.ts';
import { deadBand, stairs } from '../../../linear/cycles/describing.ts';
import { openedSampled } from '../../../linear/cycles/opened.ts';
import { unfitting } from '../../../linear/sampled-loop.ts';
import type { Scenario } from '../../../scenario/scenario.ts';
import type { Places } from '../places.ts';
import { directionsOf } from './directions.ts';
import type { Hunter } from './hunter.ts';

/** A rest that far into the band, over it, is taken as its middle. */
const middle_ratio = 0.1;

export function shareHunters({ firmware }: Scenario, cabinet: Cabinet, { system, trims }: Places): Hunter[] {
  const { trim_quantum_V: quantum, dead_band_ratio: band } = firmware.share;
  const task = system.tasks.find(({ name }) => name === 'share');
  const { stages, shelfCount } = cabinet.network;
  const { tuned, law } = cabinet.controls.share;
  const running = Array.from({ length: shelfCount }, (_, k) => k).filter((k) => stages.running[k] === 1);
  if ((quantum === 0 && band === 0) || task === undefined || trims.some((at) => at < 0)) return [];
  // A remark says that nothing is told of this loop.
  if (unfitting(system, task) !== null) return [];
  // Upward trims alone, or a law of the user's own, are no loop of this form.
  if (tuned.isHighest || law !== null) return [];
  const period_s = task.period * system.tick_s;
  return directionsOf(
    running.map((k) => stages.names[k]!),
    false,
  ).flatMap((direction): Hunter[] => {
    const moved = running.filter((_, j) => direction.weights[j] !== 0);
    const loop = openedSampled(
      system,
      task,
      'run',
      trims.map((at) => system.plant.n + at),
      direction.weights,
    );
    const [first] = moved;
    const rated_A = stages.columns.rated_A[first!]!;
    // Of the trim's law, u = step e/(1 − keep ζ⁻¹): the error that a volt of the command comes back as.
    const errorPerCommand = (frequency_Hz: number): number => {
      const angle = 2 * Math.PI * frequency_Hz * period_s;
      const back: Complex = { re: tuned.keep_ratio * cosine(angle), im: -tuned.keep_ratio * sine(angle) };
      const L = magnitude(loop.at(frequency_Hz));
      return (L * magnitude(subtract({ re: 1, im: 0 }, back))) / tuned.step_V[first!]!;
    };
    const rests = moved.map((k) => stages.trim_V[k]!);
    const still = errorPerCommand(1e-4 / period_s);
    const out: Hunter[] = [];
    if (quantum > 0) {
      const off = Math.max(...rests.map((u) => still * Math.abs(u - Math.round(u / quantum) * quantum)));
      out.push({
        element: 'trim quantum',
        given: 'trim',
        unit: 'V',
        size: quantum,
        direction,
        acts: stairs(quantum),
        loop,
        rests,
        shelfCurrent_A: (f, gain) => gain * errorPerCommand(f) * rated_A,
        silent:
          band === 0
            ? null
            : off <= band
              ? 'it rests: the nearest codes leave errors inside the dead band'
              : 'quantum and dead band act in one loop',
      });
    }
    if (band > 0) {
      const off = Math.max(...rests.map((u) => still * Math.abs(u)));
      out.push({
        element: 'trim dead band',
        given: 'error of the shared current',
        unit: 'A',
        size: band * rated_A,
        direction,
        acts: deadBand(band * rated_A),
        loop,
        rests: null,
        shelfCurrent_A: () => 1,
        silent:
          quantum > 0
            ? 'quantum and dead band act in one loop'
            : off > middle_ratio * band
              ? 'it rests towards an edge of the band: without trims the shelves do not share alike'
              : null,
      });
    }
    return out;
  });
}
