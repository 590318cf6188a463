/** Carries out the scenario's events on the devices and firmware, each at its tick. */
import type { OccurrenceKind } from '../../scenario/occurrences.ts';
import type { EventSpec } from '../../scenario/scenario.ts';
import type { Agenda } from '../agenda.ts';
import { acEvents } from './ac-events.ts';
import { barEvents } from './bar-events.ts';
import { batteryEvents } from './battery-events.ts';
import { coolantEvents } from './coolant-events.ts';
import { type Handler, type Happening, rampParts } from './happening.ts';
import { shelfEvents } from './shelf-events.ts';
import { signalEvents } from './signal-events.ts';
import { sledEvents } from './sled-events.ts';
import { storageEvents } from './storage-events.ts';

const handlers: Readonly<Record<OccurrenceKind, Handler>> = {
  ...acEvents,
  ...barEvents,
  ...batteryEvents,
  ...coolantEvents,
  ...shelfEvents,
  ...signalEvents,
  ...sledEvents,
  ...storageEvents,
};

/** Makes a moment of an event happen. */
export function happen(happening: Happening): void {
  handlers[happening.event.what](happening);
}

/**
 * Puts an event on the agenda: where it comes, the parts of its ramp, and its end. `moment(along, tick)` makes it
 * happen.
 */
export function schedule(
  event: EventSpec,
  tick_s: number,
  agenda: Agenda,
  moment: (along: number, tick: number) => void,
): void {
  const at = Math.round(event.at_s / tick_s);
  const over = event.over_s === null ? 0 : Math.round(event.over_s / tick_s);
  const parts = over === 0 ? 1 : rampParts;
  for (let part = 1; part <= parts; part++) {
    agenda.add(at + Math.round((part / parts) * over), 0, { run: (tick) => moment(part / parts, tick) });
  }
  if (event.for_s === null) return;
  agenda.add(at + over + Math.round(event.for_s / tick_s), 0, { run: (tick) => moment(0, tick) });
}
