/** What happens to sleds. */
import { digits } from '../../base/digits.ts';
import { alters } from './alters.ts';
import { columnsOf, type Handler, type Happening, isFirst, reached } from './happening.ts';
import { levelNode } from './level-node.ts';

const volts = ({ network, stepper }: Happening, k: number): string =>
  `${stepper.v0[network.sleds.node[k]!]!.toFixed(2)} V`;

function open(happening: Happening, k: number, what: 'switched off' | 'fuse cleared', detail: string): void {
  const { controls, network, stepper, log } = happening;
  controls.hotSwap.unplug(k, what);
  levelNode(network, stepper, network.sleds.node[k]!);
  log.ends('short', network.sleds.names[k]!);
  log.note(network.sleds.names[k]!, 'sled-out', detail);
}

/**
 * A short at the sled, then its fuse. The short stays in the sled that is gone, so that the current of the
 * opening contact and what its capacitors still hold end in it and in the books.
 */
const short: Handler = (happening) => {
  const { event, along, controls, network, stepper, log } = happening;
  const { sleds } = network;
  for (const k of columnsOf(happening, sleds.names)) {
    if (along > 0) {
      log.note(
        sleds.names[k]!,
        'event',
        `shorted by ${digits(event.amount! * 1e3)} mΩ at ${volts(happening, k)}`,
      );
      controls.hotSwap.abandon(k, 'shorted');
      if (!controls.hotSwap.isOut(k)) log.begins('short', sleds.names[k]!, '');
      sleds.short(k, 1 / event.amount!);
      stepper.restamp();
      levelNode(network, stepper, sleds.node[k]!);
    } else {
      const current_A = controls.hotSwap.current_A(k);
      open(
        happening,
        k,
        'fuse cleared',
        `its fuse clears at ${(current_A / 1e3).toFixed(2)} kA, the sled is gone`,
      );
    }
  }
};

const off: Handler = (happening) => {
  const { controls, network } = happening;
  for (const k of columnsOf(happening, network.sleds.names)) {
    if (controls.hotSwap.isOut(k)) continue;
    open(happening, k, 'switched off', `switched off at ${controls.hotSwap.current_A(k).toFixed(0)} A`);
  }
};

const on: Handler = (happening) => {
  const { tick, controls, network, stepper, log, removed } = happening;
  for (const k of columnsOf(happening, network.sleds.names)) {
    if (!controls.hotSwap.isOut(k)) continue;
    const name = network.sleds.names[k]!;
    removed(name, controls.hotSwap.plug(k, tick));
    // The limiter's current stands at once, and both ends of the contact feel it.
    for (const node of controls.hotSwap.ends(k)) levelNode(network, stepper, node);
    const current_A = network.scenario.sleds[k]!.values.inrush_current_A;
    log.note(name, 'event', `plugged in, empty: charges at ${current_A} A`);
  }
};

const brake: Handler = (happening) => {
  const { event, along, controls, network, log } = happening;
  const share = reached(happening, 1);
  for (const k of columnsOf(happening, network.sleds.names)) {
    controls.sledPower.forced[k] = share;
    controls.sledPower.command(k);
    alters(happening, network.sleds.names[k]!, share, 1);
  }
  const who = event.unit === 'all' ? 'sleds' : event.unit;
  if (isFirst(happening))
    log.note(who, 'brake-on', `told to hold to ${(event.amount! * 100).toFixed(0)} % of the demand`);
  else if (along === 0) log.note(who, 'brake-off', 'told to draw its full demand again');
};

export const sledEvents = {
  'sled-short': short,
  'sled-off': off,
  'sled-on': on,
  brake,
} satisfies Readonly<Record<string, Handler>>;
