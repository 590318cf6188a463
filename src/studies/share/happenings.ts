/**
 * What happens to the share in a test, by name: what a receiver makes of the samples, or a shelf that leaves or joins.
 * No change of a scenario says these, as they are faults of the moment.
 */
import type { Cabinet } from '../../engine/cabinet.ts';

export type Happening =
  | 'sensors differ'
  | 'a sensor reads high'
  | 'a sensor reads nothing'
  | 'most frames lost'
  | 'all frames lost'
  | 'a shelf leaves'
  | 'a shelf joins';

type Act = (cabinet: Cabinet, tick: number) => void;

/** Before the look begins, and as it begins. */
interface Acts {
  readonly before?: Act;
  readonly begins?: Act;
}

export const happenings: Readonly<Record<Happening, Acts>> = {
  'sensors differ': {
    begins: (cabinet) =>
      spoiled(cabinet, (y) => {
        for (let k = 0; k < y.length; k++) y[k]! *= 1 + 0.01 * (k % 2 === 0 ? 1 : -1);
      }),
  },
  'a sensor reads high': {
    begins: (cabinet) =>
      spoiled(cabinet, (y) => {
        y[0]! *= 1.1;
      }),
  },
  'a sensor reads nothing': {
    begins: (cabinet) =>
      spoiled(cabinet, (y) => {
        y[0] = 0;
      }),
  },
  'most frames lost': {
    begins: (cabinet) => {
      const held = new Float64Array(cabinet.controls.share.signal.size);
      spoiled(cabinet, (y, turn) => {
        if (turn % 10 === 0) held.set(y);
        else y.set(held);
      });
    },
  },
  'all frames lost': {
    begins: (cabinet) => {
      let held: Float64Array | null = null;
      spoiled(cabinet, (y) => {
        held ??= y.slice();
        y.set(held);
      });
    },
  },
  'a shelf leaves': { begins: ({ controls }) => controls.shelfGuard.takeOut(0, 0, 'taken out') },
  'a shelf joins': {
    before: ({ controls }, tick) => controls.walkIn.lose(0, tick),
    begins: ({ controls }, tick) => controls.walkIn.restore(0, tick),
  },
};

/** `spoil` changes a copy, so that the sender's buffer stays true. */
function spoiled(cabinet: Cabinet, spoil: (sample: Float64Array, turn: number) => void): void {
  const { signal } = cabinet.controls.share;
  const read = signal.read.bind(signal);
  const copy = new Float64Array(signal.size);
  let turn = 0;
  signal.read = (): Float64Array => {
    copy.set(read());
    spoil(copy, turn++);
    return copy;
  };
}
