/** Signals that fail, sensors that lie, shelves that leave the share. */
import type { Wire } from '../../firmware/signal/wire.ts';
import { Random } from '../../loads/random.ts';
import { alters, switches } from './alters.ts';
import { type Handler, type Happening, isFirst, reached } from './happening.ts';

/** Draws of one signal's jitter: the run's seed, and a number of its own for each entry of the table. */
function seedOf({ event, network }: Happening): number {
  const own = [...event.unit].reduce((sum, letter) => sum * 31 + letter.charCodeAt(0), 7);
  return network.scenario.seed + own;
}

/** The wires of a signal: share has one among shelves and may have another among battery shelves. */
function wiresOf(happening: Happening): Wire[] {
  const { event, controls } = happening;
  const share = [controls.share, ...(controls.batteryShare === null ? [] : [controls.batteryShare])];
  const tasks = event.unit === 'share' ? share : event.unit === 'smoothing' ? [controls.smoothing] : [];
  return tasks.map(({ signal }, k) => signal.wire(seedOf(happening) + k));
}

/** How log and spans name a signal. */
function nameOf({ event }: Happening): string {
  return `signal ${event.unit}`;
}

function note(happening: Happening, begins: string, ends: string): void {
  const { along, log } = happening;
  log.note(nameOf(happening), 'event', along > 0 ? begins : ends);
}

/** Nothing arrives any more, or the last value stands: for the AC signal, which tells changes only, one and the same. */
function stop(set: (wire: Wire, on: boolean) => void, begins: string, ends: string): Handler {
  return (happening) => {
    const { event, along, tick, controls } = happening;
    note(happening, begins, ends);
    switches(happening, nameOf(happening), along > 0);
    if (event.unit === 'ac') controls.acSignal.silence(tick, along > 0);
    for (const wire of wiresOf(happening)) set(wire, along > 0);
  };
}

/** Samples arrive later, by a fixed time or by a drawn one. */
function delay(kind: 'late' | 'jitter'): Handler {
  return (happening) => {
    const { event, along, network, controls } = happening;
    const ticks = along > 0 ? Math.round(event.amount! / network.scenario.tick_s) : 0;
    const by = `${(event.amount! * 1e3).toFixed(1)} ms`;
    note(happening, kind === 'late' ? `late by ${by}` : `late by up to ${by} at random`, 'in time again');
    if (event.unit === 'ac') {
      const { acSignal } = controls;
      if (kind === 'late') acSignal.late = ticks;
      else acSignal.jitterBy(ticks, new Random(seedOf(happening)));
    }
    alters(happening, nameOf(happening), along > 0 ? event.amount! : 0, 0);
    for (const wire of wiresOf(happening)) wire.delay(kind, ticks);
  };
}

export const signalEvents = {
  'sensor-shift': (happening) => {
    const { event, along, network, controls, log } = happening;
    const k = network.intakes.names.indexOf(event.unit);
    const built = network.scenario.shelves[k]!.values.sense_gain_ratio;
    const shift = reached(happening, 0);
    controls.share.senseGain[k] = built + shift;
    alters(happening, event.unit, shift, 0);
    if (isFirst(happening)) {
      const by = `${event.amount! >= 0 ? '+' : ''}${(event.amount! * 100).toFixed(1)} %`;
      log.note(event.unit, 'event', `its current sensor reads wrong by ${by}`);
    } else if (along === 0) log.note(event.unit, 'event', 'its current sensor reads true again');
  },
  'share-out': (happening) => {
    const { event, along, network, controls, log } = happening;
    const k = network.intakes.names.indexOf(event.unit);
    controls.share.out[k] = along > 0 ? 1 : 0;
    switches(happening, event.unit, along > 0);
    const held = `${(controls.share.trim_V[k]! * 1e3).toFixed(0)} mV`;
    log.note(event.unit, 'event', along > 0 ? `leaves the share, trim held at ${held}` : 'shares again');
  },
  'signal-lost': stop(
    (wire, on) => {
      wire.lost = on;
    },
    'lost',
    'arrives again',
  ),
  'signal-frozen': stop((wire, on) => wire.freeze(on), 'frozen: the last value stands', 'moves again'),
  'signal-late': delay('late'),
  'signal-jitter': delay('jitter'),
  'signal-scaled': (happening) => {
    const { event, along } = happening;
    const factor = along > 0 ? event.amount! : 1;
    note(happening, `arrives times ${factor.toFixed(2)}`, 'arrives as it is again');
    alters(happening, nameOf(happening), factor, 1);
    for (const wire of wiresOf(happening)) wire.factor = factor;
  },
  'signal-stuck': (happening) => {
    const { event, along } = happening;
    note(happening, `common line stuck at ${event.amount!.toFixed(2)} per unit`, 'common line free again');
    const stuck = along > 0 ? event.amount! : null;
    alters(happening, nameOf(happening), stuck, null);
    for (const wire of wiresOf(happening)) wire.stuck = stuck;
  },
} satisfies Readonly<Record<string, Handler>>;
