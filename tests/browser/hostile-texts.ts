/** Texts that would come to life in a page that took them for markup, and pages in which every text of a user is one. */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Bundle } from '../../src/bundle/format.ts';
import { readBundleFiles } from '../../src/bundle/read.ts';
import { writeBundle } from '../../src/bundle/write.ts';
import { endStudy } from '../../src/cli/disk/study-whole.ts';
import { makeComparePage } from '../../src/cli/pages/compare-page.ts';
import { makePage } from '../../src/cli/pages/page.ts';
import { makeStudyPage } from '../../src/cli/pages/study-page.ts';
import { compare } from '../../src/studies/compare/compare.ts';
import { headOf } from '../../src/studies/head.ts';
import type { MatrixCell } from '../../src/studies/matrix/cell.ts';
import type { MatrixReport } from '../../src/studies/matrix/report.ts';
import { statesOf } from '../../src/studies/trials/states.ts';
import { syntheticRun } from '../fixtures/run.ts';

/** Each sets `struck` where it comes to life. */
export const hostile: readonly string[] = [
  '</SCRIPT><img src=x onerror="window.struck=1">',
  '</ScRiPt\t><script>window.struck=2</script>',
  '<!-- <script> window.struck=3',
  '--!><svg/onload=window.struck=4>',
  '</title></style ><iframe srcdoc="<script>parent.struck=5</script>"></iframe>',
  '"\'><a href="javascript:window.struck=6" autofocus onfocus=window.struck=6>x</a>',
  "$& $` $' $\u007bwindow.struck=7} /*SCRIPT*/ /*CARRIED*/ \\u003cb\\u003e &lt;b&gt; &#60;",
  ']]>\u2028\u2029<base href="http://127.0.0.1:9/"><meta http-equiv=refresh content="0;url=http://127.0.0.1:9/">',
];
export const everyText: string = hostile.join(' ');

/** A short run in which every text that a user writes is hostile. */
function hostileRun(): Bundle {
  const run = syntheticRun(2);
  const { report, scenario, provenance } = run;
  const words = { title: everyText, about: everyText };
  const findings = report.findings.map((finding) => ({ ...finding, reason: everyText, source: everyText }));
  const basis = report.basis.map((entry) => ({
    ...entry,
    what: everyText,
    by: everyText,
    reason: everyText,
  }));
  return {
    ...run,
    report: { ...report, summary: everyText, findings, basis, scenario: { ...report.scenario, ...words } },
    scenario: { ...scenario, ...words, expectation: everyText },
    provenance: { ...provenance, request: { ...provenance.request, scenario: everyText } },
  };
}

export async function hostileRunPage(root: string): Promise<string> {
  const dir = join(root, 'run');
  writeBundle(dir, hostileRun(), { force: false });
  return makePage(readBundleFiles(dir));
}

/** That run before a shorter one, which turns a limit, loses its basis and calls itself as hostile. */
export async function hostileComparePage(): Promise<string> {
  const before = hostileRun();
  const { report } = before;
  const findings = report.findings.map((finding, k) =>
    k === 1 ? { ...finding, title: everyText, verdict: 'fail' as const, headroom_ratio: -1 } : finding,
  );
  const outcome = { ...report.outcome, because: everyText };
  const basis = report.basis.map((entry) => ({ ...entry, what: `${everyText}.` }));
  const after: Bundle = {
    ...before,
    scenario: { ...before.scenario, duration_s: 1 },
    report: { ...report, findings, outcome, basis, verdict: 'pass' },
  };
  return makeComparePage(compare(before, after), before, after);
}

/** A matrix of one cell, hostile in every text. */
export async function hostileStudyPage(root: string): Promise<string> {
  const cell: MatrixCell = {
    ...{ fault: everyText, redundancy: everyText, corner: everyText },
    ...{ letter: 'F', verdict: 'fail', status: 'ok', binding: everyText },
    ...{ value: 1, limit: 0.5, unit: everyText, headroom_ratio: -1, node: everyText },
    ...{
      summary: everyText,
      conditions: [everyText],
      warnings: [everyText],
      collapse: null,
      later_s: 0,
      unfelt: everyText,
      trial: { kind: 'run', scenario: everyText, changes: [] },
      replay: everyText,
    },
  };
  const report: MatrixReport = {
    ...headOf({ kind: 'matrix', id: everyText, title: everyText, about: everyText }, [], [50]),
    limit_titles: { [everyText]: everyText },
    ...{ faults: [everyText], fault_words: [everyText], corners: [everyText], redundancy: [everyText] },
    ...{
      ripple_not_after: [everyText],
      cells: [cell],
      states: statesOf([]),
      passed: 0,
      runs: 1,
      simulations: 1,
    },
    coverage: {
      kinds: [{ kind: everyText, struck: [everyText], units: 1 }],
      kinds_not_run: [everyText],
      pairs: { run: 0, possible: 0 },
      moments: 1,
    },
  };
  const dir = join(root, 'study');
  mkdirSync(dir);
  endStudy(dir, { 'study.json': JSON.stringify(report) });
  return makeStudyPage(dir);
}
