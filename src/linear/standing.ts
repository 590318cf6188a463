/**
 * How a cabinet stands while it rests: which shelves give nothing, which battery shelves carry, what events have
 * changed. Laid upon a cabinet as built before it settles, so that the linear model is about the cabinet that the
 * run had, not about the one that the scenario describes.
 */
import type { Cabinet } from '../engine/cabinet.ts';
import { happen } from '../engine/happen/happen.ts';
import type { EventSpec } from '../scenario/scenario.ts';

export interface Standing {
  /** Battery shelves that carry, by name. */
  readonly carrying: readonly string[];
  /** Rectifier shelves that give nothing, by name. */
  readonly stopped: readonly string[];
  /** Trays and battery shelves have been told that AC is lost: trays hold still. */
  readonly isAcLost: boolean;
  /** Events that have come and are not over; what the AC side does shows in who is stopped. */
  readonly events: readonly EventSpec[];
}

/** Everything runs as built. */
export const asBuilt: Standing = { carrying: [], stopped: [], isAcLost: false, events: [] };

/** Brings a cabinet that has not settled yet into the state in which the run rested. */
export function standAs(
  { network, controls, stepper, log }: Pick<Cabinet, 'network' | 'controls' | 'stepper' | 'log'>,
  { carrying, stopped, isAcLost, events }: Standing,
): void {
  const { stages, packs } = network;
  const { firmware } = network.scenario;
  const removed = (): void => {};
  for (const event of events) {
    // What a signal suffers is part of the scenario that was assembled (with-signals.ts).
    if (event.what.startsWith('signal-')) continue;
    happen({ event, along: 1, tick: 0, network, controls, stepper, log, removed });
  }
  for (const name of stopped) {
    const k = stages.names.indexOf(name);
    stages.running[k] = 0;
    stages.trim_V[k] = 0;
  }
  if (isAcLost) {
    controls.acSignal.lost = true;
    controls.smoothing.stop();
  }
  for (const name of carrying) {
    const k = packs.names.indexOf(name);
    const stage = packs.firstStage + k;
    controls.handover.phases.enter(k, 'carrying', 0);
    stages.running[stage] = 1;
    stages.setPoint_V[stage] = firmware.handover.set_point_on_loss_V;
  }
  log.entries.length = 0;
}
