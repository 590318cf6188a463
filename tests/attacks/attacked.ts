/** Whole runs of shipped scenarios, turned against the judgement: none of them may pass clean. */
import { expect } from 'vitest';
import type { Finding, Report } from '../../src/analysis/judge/report.ts';
import { type Run, run } from '../../src/run.ts';
import type { Changes } from '../engine/runs.ts';
import { readShipped, type Swap } from '../scenario/shipped.ts';

export interface Attack {
  readonly changes?: Changes;
  /** As `events.add` takes them. */
  readonly happens?: readonly string[];
  /** Another load, as a scenario file writes it, in place of the one of `idle`. */
  readonly load?: string;
}

const idle = 'scenarios/idle.yaml';
const idleLoad = '  kind: constant\n  power: 31.2 kW\n';

export function attacked(name: string, { changes = {}, happens = [], load }: Attack): Run {
  const list = [
    ...Object.entries(changes).map(([path, value]) => ({ path, value })),
    ...happens.map((value) => ({ path: 'events.add', value })),
  ];
  const swaps: Swap[] = load === undefined ? [] : [[idle, idleLoad, load]];
  return run(readShipped(`scenarios/${name}.yaml`, swaps, { changes: list }).scenario, null);
}

/** The run does not show what was asked of it, says so, and passes nothing. */
export function expectNotShown({ report, result }: Run, phrase: RegExp): void {
  expect(result.unshown.join('; ')).toMatch(phrase);
  expect(report.findings.filter(({ verdict }) => verdict === 'pass').map(({ id }) => id)).toEqual([]);
  expect(['inconclusive', 'fail']).toContain(report.verdict);
}

export function findingOf(report: Report, id: string, column?: Finding['column']): Finding {
  const found = report.findings.find((f) => f.id === id && (column === undefined || f.column === column));
  if (found === undefined) throw new Error(`no finding ${id}`);
  return found;
}

/** Every limit that asks for minutes or years of a load. */
export const askForLong = ['line-current-continuous', 'flicker-pst', 'flicker-plt', 'tray-capacitor-rms'];
