/** Faults that hold another as a special case: what the other does as well needs no more. */
import type { Fault } from './fault.ts';

type Leaving = Fault & { readonly leaves_ratio: number };

/** What a wider fault must leave less, of what the simpler one leaves: slow waves do a little of everything. */
const clearlyLess = 0.9;

export function withoutWider<One extends Leaving>(all: readonly One[]): One[] {
  return all.filter(
    (one) => !all.some((other) => isWider(one, other) && one.leaves_ratio > clearlyLess * other.leaves_ratio),
  );
}

function isWider(one: Fault, other: Fault): boolean {
  // Without the samples of an edge a mean over it is none.
  if (one.kind === 'readings') return other.kind === 'averaged';
  if (!('path' in one && 'path' in other && one.path === other.path)) return false;
  switch (one.kind) {
    case 'drift':
      return other.kind === 'bias' || other.kind === 'gain';
    case 'wander':
      return other.kind !== 'wander';
    default:
      return false;
  }
}
