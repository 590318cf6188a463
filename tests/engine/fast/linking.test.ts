/** When the kernel is linked to a cabinet, and to what: cabinets of every kind of device can be, and nothing that was linked to another is called. */
import { describe, expect, it } from 'vitest';
import { readTextFile } from '../../../src/disk/read-file.ts';
import { advance } from '../../../src/engine/advance.ts';
import { ready } from '../../../src/engine/cabinet.ts';
import type { KernelChoice } from '../../../src/engine/fast/kernel-form.ts';
import { firmwareAgenda } from '../../../src/engine/firmware-agenda.ts';
import { Rung } from '../../../src/engine/rung.ts';
import { makeDemand } from '../../../src/loads/make-demand.ts';
import { assemble } from '../../../src/network/network.ts';
import { readScenario } from '../../../src/scenario/read.ts';
import type { Scenario } from '../../../src/scenario/scenario.ts';
import { smallCabinet } from '../small-cabinet.ts';

const scenarioOf = (name: string): Scenario =>
  readScenario(`scenarios/${name}.yaml`, { files: readTextFile, changes: [] }).scenario;

/** A cabinet of a scenario under a flat load, which shows no less of how its memory is laid out. */
function cabinetOf(scenario: Scenario, kernel: KernelChoice) {
  const flat = { ...scenario, load: { kind: 'step', before_W: 0, after_W: 0, at_s: 1, edge_s: 1e-3 } };
  return ready(assemble(scenario), makeDemand(flat as unknown as Scenario), 1, kernel);
}

const names = [
  'single-step',
  'battery-late',
  'bank-out',
  'charge-to-full',
  'line-ripple',
  'mixed-shelves',
  'pulse-train-800v',
  'tie-open',
  'weak-feeder',
];

describe('linking', () => {
  it.each(names)('is possible for the cabinet of %s', (name) => {
    const { stepper } = cabinetOf(scenarioOf(name), 'linked');
    expect(stepper.kernel.form).toBe('fast');
    stepper.take(0, 1);
    expect(stepper.kernel.form).toBe('linked');
  });

  it('is undone where a rung is laid out otherwise, and the steps have the same bits', () => {
    const units = { trays: 1, banks: 1, batteries: 1, sleds: 2 };
    const load = '{ kind: step, before: 4 kW, after: 12 kW, at: 10 ms, edge: 1 ms }';
    const scenario = smallCabinet({ ...units, load, duration: '60 ms', events: [] });
    const cabinets = (['linked', 'linked', 'plain'] as const).map((kernel) => cabinetOf(scenario, kernel));
    for (const cabinet of cabinets) {
      const agenda = firmwareAgenda(cabinet, 0);
      advance(cabinet, agenda, 0, 1000, null);
      const { stepper } = cabinet;
      if (cabinet === cabinets[0]) {
        expect(stepper.kernel.form).toBe('linked');
        stepper.kernel.hold('Rung', new Rung(cabinet.network));
        expect(stepper.kernel.form).toBe('linked');
        stepper.kernel.hold('Rung', new Rung(assemble(scenario)));
        expect(stepper.kernel.form).toBe('fast');
      }
      advance(cabinet, agenda, 1000, 2000, null);
    }
    const [undone, linked, plain] = cabinets.map(({ stepper }) => [...stepper.x0, ...stepper.v0]);
    expect(linked).toEqual(plain);
    expect(undone).toEqual(plain);
  });
});
