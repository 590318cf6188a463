/** A network too large to be written out is solved by the compiled kernel's loops: the same bits as the plain ones. */
import { expect, it, vi } from 'vitest';
import { readTextFile } from '../../../src/disk/read-file.ts';
import { simulate } from '../../../src/engine/simulate.ts';
import { makeDemand } from '../../../src/loads/make-demand.ts';
import { assemble } from '../../../src/network/network.ts';
import { readScenario } from '../../../src/scenario/read.ts';

// Every network is too large here; a real one of more than 256 nodes takes the same loops.
vi.mock('../../../src/nodal/written-out.ts', async (original) => ({
  ...(await original<typeof import('../../../src/nodal/written-out.ts')>()),
  mostWrittenOut: 0,
}));

it.each(['single-step', 'link-bar-out'])('%s ends at the same bits', (name) => {
  const { scenario } = readScenario(`scenarios/${name}.yaml`, {
    files: readTextFile,
    changes: [{ path: 'duration', value: '0.12 s' }],
  });
  const [plain, ...compiled] = (['plain', 'fast', 'linked'] as const).map((kernel) =>
    simulate(assemble({ ...scenario, start: 'settled', warm_up_s: 0, events: [] }), makeDemand(scenario), {
      levels_V: new Float64Array(),
      kernel,
    }),
  );
  for (const fast of compiled) {
    expect(fast.counters).toEqual(plain!.counters);
    expect(fast.extremes).toEqual(plain!.extremes);
    expect(fast.audit).toEqual(plain!.audit);
  }
});
