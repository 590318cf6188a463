/** Two kept runs side by side: what changed in their inputs, their metrics and their findings. */

import type { BasisEntry } from '../../analysis/basis.ts';
import type { Outcome } from '../../analysis/judge/outcome.ts';
import type { Finding, Report, Verdict } from '../../analysis/judge/report.ts';
import type { Status } from '../../engine/result.ts';
import type { Scenario } from '../../scenario/scenario.ts';
import { toolVersion } from '../../version.ts';
import { canonical } from '../canonical.ts';

export interface ChangedInput {
  /** A file, or a path of the scenario. */
  readonly what: string;
  readonly before: string | number | boolean | null;
  readonly after: string | number | boolean | null;
}

export interface ChangedMetric {
  readonly name: string;
  readonly before: number | null;
  readonly after: number | null;
  readonly difference: number | null;
  /** Difference over the value before. */
  readonly ratio: number | null;
}

export interface ChangedFinding {
  readonly id: string;
  readonly before: Side | null;
  readonly after: Side | null;
  /** The verdict is another, not only the number. */
  readonly turned: boolean;
}

type Side = Pick<
  Finding,
  'verdict' | 'within_doubt' | 'column' | 'value' | 'limit' | 'unit' | 'headroom_ratio' | 'node'
> & {
  /** Whether the limit is a highest or a lowest value. */
  readonly bound: 'upper' | 'lower' | null;
};

/** One of the two as a whole. */
export interface ComparedRun {
  readonly scenario: string;
  readonly status: Status;
  readonly verdict: Verdict;
  readonly summary: string;
  /** What became of the cabinet, and what that is read from. */
  readonly outcome: Pick<Outcome, 'kind' | 'because'>;
  /** What was judged of it. */
  readonly window_s: Report['window_s'];
}

export interface Comparison {
  readonly schema_version: number;
  readonly tool_version: string;
  readonly before: ComparedRun;
  readonly after: ComparedRun;
  /** What the verdicts rest on: entries that only one of the two has. */
  readonly basis: { readonly gone: readonly BasisEntry[]; readonly come: readonly BasisEntry[] };
  readonly inputs: readonly ChangedInput[];
  readonly metrics: readonly ChangedMetric[];
  /** Turned ones first, then by how far the headroom moved. */
  readonly findings: readonly ChangedFinding[];
}

export interface KeptRun {
  readonly report: Report;
  readonly scenario: Scenario;
}

export function compare(before: KeptRun, after: KeptRun): Comparison {
  const side = ({ report }: KeptRun): ComparedRun => ({
    scenario: report.scenario.id,
    status: report.status,
    verdict: report.verdict,
    summary: report.summary,
    outcome: { kind: report.outcome.kind, because: report.outcome.because },
    window_s: report.window_s,
  });
  return {
    schema_version: 1,
    tool_version: toolVersion,
    before: side(before),
    after: side(after),
    basis: {
      gone: onlyIn(before.report.basis, after.report.basis),
      come: onlyIn(after.report.basis, before.report.basis),
    },
    inputs: [...changedFiles(before.report, after.report), ...changedValues(before.scenario, after.scenario)],
    metrics: changedMetrics(before.report, after.report),
    findings: changedFindings(before, after),
  };
}

/** Entries of `a` that `b` does not have word for word. */
function onlyIn(a: readonly BasisEntry[], b: readonly BasisEntry[]): readonly BasisEntry[] {
  const known = new Set(b.map((entry) => canonical(entry)));
  return a.filter((entry) => !known.has(canonical(entry)));
}

function changedFiles(a: Report, b: Report): readonly ChangedInput[] {
  const sums = ({ inputs }: Report): Map<string, string> =>
    new Map(inputs.flatMap((input) => ('path' in input ? [[input.path, input.sha256] as const] : [])));
  return changes(sums(a), sums(b));
}

/** Values of the validated scenario, in SI, by path: what a changed file or a change came to. */
function changedValues(a: Scenario, b: Scenario): readonly ChangedInput[] {
  const changed = changes(leaves(a), leaves(b));
  // A unit that came or went is said once, not value by value.
  const units = changed
    .filter(({ what }) => what.endsWith('.id'))
    .map(({ what }) => what.slice(0, -'id'.length));
  return changed
    .filter(({ what }) => !units.some((unit) => what.startsWith(unit) && what !== `${unit}id`))
    .map((one) => (one.what.endsWith('.id') ? { ...one, what: one.what.slice(0, -'.id'.length) } : one));
}

function changes<V extends ChangedInput['before']>(
  a: ReadonlyMap<string, V>,
  b: ReadonlyMap<string, V>,
): readonly ChangedInput[] {
  return [...new Set([...a.keys(), ...b.keys()])].flatMap((what) => {
    const [before, after] = [a.get(what) ?? null, b.get(what) ?? null];
    return Object.is(before, after) ? [] : [{ what, before, after }];
  });
}

/** What the run is made of; files, origins and words about it are not. */
const left = new Set([
  ...['inputs', 'origins', 'changes', 'alterations', 'warnings', 'limits_basis', 'asked_on'],
  ...['id', 'title', 'about', 'expectation'],
]);

function leaves(scenario: Scenario): ReadonlyMap<string, string | number | boolean | null> {
  const found = new Map<string, string | number | boolean | null>();
  const walk = (value: unknown, path: string): void => {
    if (typeof value !== 'object' || value === null) {
      found.set(path, value as string | number | boolean | null);
      return;
    }
    for (const [key, inner] of Object.entries(value)) {
      if (path === '' && left.has(key)) continue;
      // Units and rows are known by their names, not by where they stand in a list.
      const named = (inner as { id?: unknown } | null)?.id;
      const step = Array.isArray(value) && typeof named === 'string' ? named : key;
      if (step === 'values') walk(inner, path);
      else walk(inner, path === '' ? step : `${path}.${step}`);
    }
  };
  walk(scenario, '');
  return found;
}

function changedMetrics(a: Report, b: Report): readonly ChangedMetric[] {
  return Object.entries(a.metrics).flatMap(([name, before]: [string, number | null]) => {
    const after = (b.metrics as unknown as Record<string, number | null>)[name] ?? null;
    if (Object.is(before, after)) return [];
    const difference = before === null || after === null ? null : after - before;
    const ratio =
      difference === null || before === null || before === 0 ? null : difference / Math.abs(before);
    return [{ name, before, after, difference, ratio }];
  });
}

function changedFindings(a: KeptRun, b: KeptRun): readonly ChangedFinding[] {
  // A row may be judged twice, while batteries carry and while they do not: each against its like.
  const isCarry = ({ column }: Finding): boolean => column === 'carry';
  const sideOf = ({ report, scenario }: KeptRun, id: string, carry: boolean): Side | null => {
    const finding = report.findings.find((one) => one.id === id && isCarry(one) === carry);
    if (finding === undefined) return null;
    const { verdict, within_doubt, column, value, limit, unit, headroom_ratio, node } = finding;
    const bound = scenario.limits.find((row) => row.id === id)?.side ?? null;
    return { verdict, within_doubt, column, value, limit, unit, headroom_ratio, node, bound };
  };
  const rows = new Map(
    [...a.report.findings, ...b.report.findings].map((one) => [
      `${one.id} ${isCarry(one)}`,
      { id: one.id, carry: isCarry(one) },
    ]),
  );
  const moved = ({ before, after }: ChangedFinding): number =>
    Math.abs((after?.headroom_ratio ?? 0) - (before?.headroom_ratio ?? 0));
  return [...rows.values()]
    .map(({ id, carry }): ChangedFinding => {
      const [before, after] = [sideOf(a, id, carry), sideOf(b, id, carry)];
      return { id, before, after, turned: before?.verdict !== after?.verdict };
    })
    .filter(({ before, after }) => JSON.stringify(before) !== JSON.stringify(after))
    .sort((x, y) => Number(y.turned) - Number(x.turned) || moved(y) - moved(x));
}
