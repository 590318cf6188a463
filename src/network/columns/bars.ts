import { Bars } from '../../devices/bar/bar.ts';
import type { Topology } from '../topology.ts';
import { column, ids } from './column.ts';

export function barsOf({ bars: pieces }: Topology, offset: number): Bars {
  const bars = new Bars(
    {
      names: ids(pieces),
      from: Int32Array.from(pieces, ({ from }) => from),
      to: Int32Array.from(pieces, ({ to }) => to),
      resistance_ohm: column(pieces, (b) => b.resistance_ohm),
      inductance_H: column(pieces, (b) => b.inductance_H),
    },
    offset,
  );
  pieces.forEach(({ closed }, k) => {
    if (!closed) bars.setOpen(k, true);
  });
  return bars;
}
