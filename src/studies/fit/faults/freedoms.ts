import type { Fault } from './fault.ts';

/** Numbers that a fault may choose: of what is off, and of when it begins. */
export function freedomsOf(fault: Fault): number {
  switch (fault.kind) {
    case 'exchanged':
    case 'place':
      return 0;
    case 'sign':
    case 'unit':
      return stretchOf(fault);
    case 'gain':
      return 1 + stretchOf(fault);
    case 'averaged':
    case 'bias':
    case 'delay':
    case 'clock':
    case 'stamps':
      return 1;
    case 'drift':
    case 'readings':
    case 'time lost':
      return 2;
    case 'wander':
      return fault.waves;
  }
}

function stretchOf({
  from_s,
  to_s,
}: {
  readonly from_s: number | null;
  readonly to_s: number | null;
}): number {
  return from_s !== null || to_s !== null ? 1 : 0;
}
