/** Carries out the scenario's events on the devices and firmware. */

import type { Log } from '../events/log.ts';
import type { Controls } from '../firmware/controls.ts';
import type { Network } from '../network/network.ts';
import type { EventSpec } from '../scenario/scenario.ts';
import type { Stepper } from './stepper.ts';

/** Makes `event` happen at `tick`. */
export function happen(
  event: EventSpec,
  tick: number,
  network: Network,
  controls: Controls,
  stepper: Stepper,
  log: Log,
): void {
  const { scenario, bars, intakes, trays } = network;
  const unit = event.unit;
  switch (event.what) {
    case 'shelf-trip': {
      controls.walkIn.trip(intakes.names.indexOf(unit));
      log.note(unit, 'event', 'trips');
      return;
    }
    case 'tray-out': {
      log.note(unit, 'event', 'is taken out');
      controls.smoothing.drop(trays.names.indexOf(unit));
      return;
    }
    case 'bar-out': {
      const k = bars.names.indexOf(unit);
      bars.setOpen(k, true);
      stepper.restamp();
      log.note(unit, 'event', `opens at ${stepper.x0[bars.offset + k]!.toFixed(0)} A`);
      return;
    }
    case 'ac-loss':
    case 'ac-return': {
      const lost = event.what === 'ac-loss';
      const feeders = scenario.feeders.map((f) => f.id).filter((id) => unit === 'all' || unit === id);
      for (const feeder of feeders) {
        log.note(feeder, 'event', lost ? 'AC lost' : 'AC returns');
        controls.acSignal.tell(tick, feeder, lost);
        scenario.shelves.forEach((shelf, k) => {
          if (shelf.feeder !== feeder) return;
          if (lost) controls.walkIn.lose(k, tick);
          else controls.walkIn.restore(k, tick);
        });
      }
      return;
    }
  }
}
