/** What the feeders do to the shelves on them. */
import { alters, switches } from './alters.ts';
import { type Handler, type Happening, isFirst } from './happening.ts';

/** The feeders an event happens to. */
function feedersOf({ event, network }: Happening): string[] {
  return network.scenario.feeders.map((f) => f.id).filter((id) => event.unit === 'all' || event.unit === id);
}

/** Is it the line voltage that the event sets? */
function isLevel(what: string): boolean {
  return what === 'ac-sag' || what === 'ac-swell';
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
    const shelves = shelvesOn(happening, feeder);
    if (!controls.feederWatch.scale(feeder, ratio))
      for (const k of shelves) controls.lineLevel.set(k, ratio, tick);
    if (shelves.length === 0) continue;
    // One line voltage: what a sag or a swell made of it before is no more.
    for (const track of log.spans.tracksOf('altered', feeder))
      if (isLevel(track.what) && track.what !== event.what) track.end();
    alters(happening, feeder, ratio, 1);
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
      const shelves = shelvesOn(happening, feeder);
      for (const k of shelves) controls.lineLevel.losePhase(k, along > 0);
      if (shelves.length > 0) switches(happening, feeder, along > 0);
    }
  },
} satisfies Readonly<Record<string, Handler>>;
