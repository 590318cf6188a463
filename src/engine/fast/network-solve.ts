/**
 * The solve of a step's network as WebAssembly. The module of the last network is kept: runs of a study are mostly of the
 * same one, and writing it out takes longer than a tenth of a second of load does.
 */
import type { WasmApi } from '../../base/wasm.ts';
import type { Network } from '../../network/network.ts';
import type { Joints } from '../../nodal/joints.ts';
import type { Ordering } from '../../nodal/ordering.ts';
import { mostWrittenOut, writtenOut, writtenOutName } from '../../nodal/written-out.ts';

type Solved = Pick<Network, 'ordering' | 'currents'>;

let last: { readonly ordering: Ordering; readonly joints: Joints; readonly module: object } | null = null;

/** What a kernel imports as its network, over the memory of `env`; nothing is solved where the network is too large. */
export function networkSolve(api: WasmApi, { ordering, currents }: Solved, env: object): unknown {
  const { joints } = currents;
  if (ordering.count > mostWrittenOut) return { [writtenOutName]: (): void => {} };
  if (last === null || !isSame(last.ordering, ordering) || !isMet(last.joints, joints))
    last = { ordering, joints, module: new api.Module(writtenOut(ordering, joints)) };
  return new api.Instance(last.module, { env }).exports;
}

/** Whether two networks are solved by the same operations on the same places. */
function isSame(a: Ordering, b: Ordering): boolean {
  return (
    a.count === b.count &&
    a.sweeps.forwardCount === b.sweeps.forwardCount &&
    isAlike(a.node, b.node) &&
    isAlike(a.sweeps.target, b.sweeps.target) &&
    isAlike(a.sweeps.source, b.sweeps.source) &&
    isAlike(a.sweeps.entry, b.sweeps.entry)
  );
}

/** Whether the same currents meet at the same nodes. */
function isMet(a: Joints, b: Joints): boolean {
  return isAlike(a.start, b.start) && isAlike(a.place, b.place);
}

function isAlike(a: Int32Array, b: Int32Array): boolean {
  return a.length === b.length && a.every((x, k) => x === b[k]);
}
