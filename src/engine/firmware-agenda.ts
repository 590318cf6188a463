/** The firmware of a cabinet as an agenda: when which signal is sampled and which task runs. */
import { Agenda } from './agenda.ts';
import type { Cabinet } from './cabinet.ts';

/** Longest step where power pulses with the line: a fortieth of a pulse at 50 Hz [s]. */
const rippleStep_s = 0.25e-3;

/** Firmware of a cabinet on an agenda that begins at `from`: signals are sampled before tasks run. */
export function firmwareAgenda(cabinet: Cabinet, from: number): Agenda {
  const agenda = new Agenda();
  const { intakes, scenario } = cabinet.network;
  if (intakes.ripple.isOn) {
    agenda.add(from, Math.round(rippleStep_s / scenario.tick_s), () => {}, true);
  }
  for (const task of cabinet.controls.tasks) {
    const { signal } = task;
    const isQuiet = task.isQuiet === true;
    const runs = (first: number, run: (tick: number) => number): void => {
      const act = (tick: number): void => {
        cabinet.log.tick = tick;
        cabinet.ladder.command(run(tick));
      };
      const { lateBy } = task;
      if (lateBy === undefined || lateBy === null) agenda.add(first, signal.period, act, isQuiet);
      else agenda.add(first, signal.period, (tick) => agenda.add(tick + lateBy(), 0, act, isQuiet), isQuiet);
    };
    agenda.add(from, signal.period, () => signal.sample(), true);
    runs(from + signal.phase, (tick) => task.run(tick));
    for (const part of task.later ?? []) {
      runs(from + signal.phase + part.behind, (tick) => part.run(tick));
    }
  }
  return agenda;
}
