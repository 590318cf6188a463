/** What a fit wants of a thread: where its measurement lies in a run, and what the measured channels do in one. */
import { run } from '../../run.ts';
import { type Packed, packed } from '../fit/packed.ts';
import type { FoundPlace } from '../fit/place.ts';
import { simulatedFor } from '../fit/simulated.ts';
import type { Trial } from '../trials/trial.ts';
import type { Shelf } from './shelf.ts';

export function placed(shelf: Shelf, trial: Trial<'place'>): FoundPlace {
  const { scenario } = shelf.read(trial);
  const { at_s: stated_s, near_s } = trial.measured;
  const measurement = shelf.measurement(trial.measured, scenario);
  const measured = { measurement, at_s: stated_s, near_s };
  const { report } = run(scenario, shelf.recordingOf(scenario), { measured });
  const { at_s, aligned, at_interval_s, clock_rate_ratio, clock_rate_error_ratio, warnings } =
    report.measured!;
  return { at_s, aligned, at_interval_s, clock_rate_ratio, clock_rate_error_ratio, warnings };
}

export function simulated(shelf: Shelf, trial: Trial<'simulated'>): Packed {
  const { scenario } = shelf.read(trial);
  const measurement = shelf.measurement(trial.measured, scenario);
  return packed(simulatedFor(measurement, scenario, shelf.recordingOf(scenario)));
}
