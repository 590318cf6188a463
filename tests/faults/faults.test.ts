import { describe, expect, it } from 'vitest';
import { faulted } from './fault-runs.ts';
import { acSupplyFaults } from './table/ac-supply.ts';
import { batteryFaults } from './table/batteries.ts';
import { busFaults } from './table/bus.ts';
import { loadFaults } from './table/load.ts';
import { severalFaults } from './table/several.ts';
import { shareFaults } from './table/share-line.ts';
import { shelfFaults } from './table/shelves.ts';
import { smoothingFaults } from './table/smoothing-signal.ts';
import { trayFaults } from './table/trays.ts';

const faultTable = [
  ...acSupplyFaults,
  ...shelfFaults,
  ...shareFaults,
  ...trayFaults,
  ...smoothingFaults,
  ...batteryFaults,
  ...busFaults,
  ...loadFaults,
  ...severalFaults,
];

describe('the fault list', () => {
  it('has all its 34 rows', () => {
    const numbers = new Set(faultTable.map(({ n }) => Number.parseInt(n, 10)));
    expect(numbers).toEqual(new Set(Array.from({ length: 34 }, (_, k) => k + 1)));
  });

  it.each(faultTable)('$n: $what', ({ base, changes, happens, kind, check }) => {
    const run = faulted(base, changes, happens);
    const { audit, counters, status } = run.result;
    expect(['ok', 'collapsed']).toContain(status);
    // Closed, with the energy of what was taken out or shorted on the books; a bus that collapses ends in mid-step.
    expect(Math.abs(audit.residual_ratio)).toBeLessThan(1e-6);
    expect(Math.abs(audit.residual_loss_ratio)).toBeLessThan(1e-5);
    expect(counters.mode_retries).toBeLessThan(100);
    expect(run.outcome.kind).toBe(kind);
    if (kind !== 'steady' && happens.length > 0) expect(run.outcome.chain.length).toBeGreaterThan(0);
    check(run);
  });
});
