/** The firmware of a cabinet as an agenda: when which signal is sampled and which task runs. */
import { Agenda } from './agenda.ts';
import type { Cabinet } from './cabinet.ts';
import { Leap } from './leap.ts';

/** Longest step where power pulses with the line: a fortieth of a pulse at 50 Hz [s]. */
const rippleStep_s = 0.25e-3;

/** What firmware does and when, and the steps that pass some of it. */
export class FirmwareAgenda extends Agenda {
  readonly leap: Leap;

  constructor(cabinet: Cabinet) {
    super();
    this.leap = new Leap(cabinet.controls.smoothing, cabinet);
  }
}

/** Firmware of a cabinet on an agenda that begins at `from`: signals are sampled before tasks run. */
export function firmwareAgenda(cabinet: Cabinet, from: number): FirmwareAgenda {
  const { smoothing } = cabinet.controls;
  const agenda = new FirmwareAgenda(cabinet);
  const { intakes, scenario } = cabinet.network;
  if (intakes.ripple.isOn) {
    agenda.add(from, Math.round(rippleStep_s / scenario.tick_s), () => {}, true);
  }
  for (const task of cabinet.controls.tasks) {
    const { signal } = task;
    const isQuiet = task.isQuiet === true;
    const isPassable = task === smoothing && smoothing.isEarlyEnough;
    const runs = (first: number, run: (tick: number) => number): void => {
      const act = (tick: number): void => {
        cabinet.log.tick = tick;
        cabinet.ladder.command(run(tick));
      };
      const { lateBy } = task;
      if (lateBy === undefined || lateBy === null) agenda.add(first, signal.period, act, isQuiet, isPassable);
      else agenda.add(first, signal.period, (tick) => agenda.add(tick + lateBy(), 0, act, isQuiet), isQuiet);
    };
    agenda.add(from, signal.period, () => signal.sample(), true, isPassable);
    runs(from + signal.phase, (tick) => (isPassable ? agenda.leap.run(tick) : task.run(tick)));
    for (const part of task.later ?? []) {
      runs(from + signal.phase + part.behind, (tick) => part.run(tick));
    }
  }
  return agenda;
}
