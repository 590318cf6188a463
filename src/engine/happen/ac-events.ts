/** What the feeders do to the shelves on them. */
import { type Handler, type Happening, isFirst } from './happening.ts';

/** The feeders an event happens to. */
function feedersOf({ event, network }: Happening): string[] {
  return network.scenario.feeders.map((f) => f.id).filter((id) => event.unit === 'all' || event.unit === id);
}

/** Columns of the shelves on a feeder. */
function shelvesOn({ network }: Happening, feeder: string): number[] {
  return network.scenario.shelves.flatMap((shelf, k) => (shelf.feeder === feeder ? [k] : []));
}

function lose(happening: Happening): void {
  const { tick, controls, log } = happening;
  for (const feeder of feedersOf(happening)) {
    log.note(feeder, 'event', 'AC lost');
    controls.acSignal.tell(tick, feeder, true);
    for (const k of shelvesOn(happening, feeder)) controls.walkIn.lose(k, tick);
  }
}

function restore(happening: Happening): void {
  const { tick, controls, log } = happening;
  for (const feeder of feedersOf(happening)) {
    log.note(feeder, 'event', 'AC returns');
    controls.acSignal.tell(tick, feeder, false);
    for (const k of shelvesOn(happening, feeder)) controls.walkIn.restore(k, tick);
  }
}

/** The line voltage moves: at its current limit an input stage takes power in proportion to it. */
function level(happening: Happening): void {
  const { event, along, tick, controls, log } = happening;
  const ratio = along > 0 ? event.amount! : 1;
  for (const feeder of feedersOf(happening)) {
    log.note(
      feeder,
      'event',
      along > 0 ? `line voltage at ${(ratio * 100).toFixed(0)} %` : 'line voltage back',
    );
    for (const k of shelvesOn(happening, feeder)) controls.lineLevel.set(k, ratio, tick);
  }
}

export const acEvents = {
  'ac-loss': lose,
  'ac-return': restore,
  'ac-sag': level,
  'ac-swell': level,
  'phase-loss': (happening) => {
    const { along, controls, log } = happening;
    for (const feeder of feedersOf(happening)) {
      if (isFirst(happening) || along === 0)
        log.note(feeder, 'event', along > 0 ? 'one of three phases lost' : 'all three phases back');
      for (const k of shelvesOn(happening, feeder)) controls.lineLevel.losePhase(k, along > 0);
    }
  },
} satisfies Readonly<Record<string, Handler>>;
