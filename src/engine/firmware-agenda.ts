/** The firmware of a cabinet as an agenda: when which signal is sampled and which task runs. */
import type { Signal } from '../firmware/signal/signal.ts';
import { Agenda, type Due, stepEnd } from './agenda.ts';
import type { Cabinet } from './cabinet.ts';

/** Longest step where power pulses with the line: a fortieth of a pulse at 50 Hz [s]. */
const rippleStep_s = 0.25e-3;

/** A signal is sampled. */
class Sampling implements Due {
  private readonly signal: Signal;

  constructor(signal: Signal) {
    this.signal = signal;
  }

  run(): void {
    this.signal.sample();
  }
}

/** A task of the firmware, or a later part of one, runs, and the ladder hears how hard it kicks. */
class Turn implements Due {
  private readonly cabinet: Cabinet;
  private readonly task: { run(tick: number): number };

  constructor(cabinet: Cabinet, task: { run(tick: number): number }) {
    this.cabinet = cabinet;
    this.task = task;
  }

  run(tick: number): void {
    const { log, ladder } = this.cabinet;
    log.tick = tick;
    ladder.command(this.task.run(tick));
  }
}

/** Firmware of a cabinet on an agenda that begins at `from`: signals are sampled before tasks run. */
export function firmwareAgenda(cabinet: Cabinet, from: number): Agenda {
  const agenda = new Agenda();
  const { intakes, scenario } = cabinet.network;
  if (intakes.ripple.isOn) {
    agenda.add(from, Math.round(rippleStep_s / scenario.tick_s), stepEnd, true);
  }
  for (const task of cabinet.controls.tasks) {
    const { signal, lateBy } = task;
    const isQuiet = task.isQuiet === true;
    const runs = (first: number, turn: Turn): void => {
      if (lateBy === undefined || lateBy === null) agenda.add(first, signal.period, turn, isQuiet);
      else {
        const late = { run: (tick: number) => agenda.add(tick + lateBy(), 0, turn, isQuiet) };
        agenda.add(first, signal.period, late, isQuiet);
      }
    };
    agenda.add(from, signal.period, new Sampling(signal), true);
    runs(from + signal.phase, new Turn(cabinet, task));
    for (const part of task.later ?? []) {
      runs(from + signal.phase + part.behind, new Turn(cabinet, part));
    }
  }
  return agenda;
}
