/** What happens to rectifier shelves. */
import { alters } from './alters.ts';
import { columnsOf, type Handler, type Happening, isFirst, reached } from './happening.ts';

function shelfOf(happening: Happening): number {
  return columnsOf(happening, happening.network.intakes.names)[0]!;
}

/** Modules fail, or are back. A shelf that has none left stops, and joins when one is back. */
function changeModules(happening: Happening): void {
  const { event, along, tick, stepper, controls, removed, log } = happening;
  const { shelfGuard: guard, lineLevel } = controls;
  const { limits } = guard;
  const k = shelfOf(happening);
  const all = limits.shelves[k]!.module_count_count;
  const before = limits.failed[k]!;
  const failed = Math.min(all, Math.max(0, before + (along > 0 ? event.amount! : -event.amount!)));
  limits.failed[k] = failed;
  alters(happening, event.unit, failed, 0);
  if (failed === all) {
    log.note(event.unit, 'modules', 'its last module fails');
    guard.takeOut(k, tick, 'no module');
    return;
  }
  removed(event.unit, limits.resize(k, failed));
  lineLevel.refresh(k);
  stepper.restamp();
  const count = Math.abs(failed - before);
  const modules = count === 1 ? '1 module' : `${count} modules`;
  const words = failed > before ? `${modules} out` : `${modules} back`;
  log.note(event.unit, 'modules', `${words}: ${all - failed} of ${all} work`);
  if (before === all) guard.join(k, tick);
}

export const shelfEvents = {
  'shelf-trip': (happening) => {
    const { event, tick, controls, log } = happening;
    controls.shelfGuard.takeOut(shelfOf(happening), tick, 'taken out');
    log.note(event.unit, 'event', 'trips');
  },
  'shelf-join': (happening) => {
    const { event, tick, controls, log } = happening;
    const k = shelfOf(happening);
    const { shelfGuard } = controls;
    const none = shelfGuard.limits.failed[k]! === shelfGuard.limits.shelves[k]!.module_count_count;
    const words = none ? ', but has no module left' : shelfGuard.stands(k) ? '' : ', but runs already';
    log.note(event.unit, 'event', `is told to join${words}`);
    if (!none) shelfGuard.join(k, tick);
  },
  'module-out': changeModules,
  'set-point-shift': (happening) => {
    const { event, along, network, log } = happening;
    const k = shelfOf(happening);
    const { set_point_V, set_point_offset_ratio } = network.scenario.shelves[k]!.values;
    const normal_V = set_point_V * (1 + set_point_offset_ratio);
    const shift = reached(happening, 0);
    network.stages.setPoint_V[k] = normal_V * (1 + shift);
    alters(happening, event.unit, shift, 0);
    if (isFirst(happening) || along === 0) {
      const to_V = along === 0 ? normal_V : normal_V * (1 + event.amount!);
      log.note(event.unit, 'event', `set point ${along === 0 ? 'back at' : 'moves to'} ${to_V.toFixed(2)} V`);
    }
  },
  'reverse-feed': (happening) => {
    const { event, along, tick, controls, log } = happening;
    const k = shelfOf(happening);
    if (along === 0) {
      controls.shelfGuard.endReverse(k);
      alters(happening, event.unit, 0, 0);
      log.note(event.unit, 'event', 'its fuse clears: it draws no more and stays out');
      return;
    }
    controls.shelfGuard.takeOut(k, tick, 'failed', event.amount!);
    alters(happening, event.unit, event.amount!, 0);
    log.note(event.unit, 'event', 'fails with its blocking element shorted');
  },
} satisfies Readonly<Record<string, Handler>>;
