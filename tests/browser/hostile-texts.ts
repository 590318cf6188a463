/** Texts that would come to life in a page that took them for markup, and pages in which every text of a user is one. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { readBundleFiles } from '../../src/bundle/read.ts';
import { writeBundle } from '../../src/bundle/write.ts';
import { makePage } from '../../src/cli/pages/page.ts';
import { makeStudyPage } from '../../src/cli/pages/study-page.ts';
import { headOf } from '../../src/studies/head.ts';
import type { MatrixCell, MatrixReport } from '../../src/studies/matrix/report.ts';
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
export async function hostileRunPage(root: string): Promise<string> {
  const run = syntheticRun(2);
  const { report, scenario, provenance } = run;
  const words = { title: everyText, about: everyText, expectation: everyText };
  const findings = report.findings.map((finding) => ({ ...finding, reason: everyText, source: everyText }));
  const basis = report.basis.map((entry) => ({
    ...entry,
    what: everyText,
    by: everyText,
    reason: everyText,
  }));
  const dir = join(root, 'run');
  writeBundle(
    dir,
    {
      ...run,
      report: { ...report, summary: everyText, findings, basis, scenario: { ...report.scenario, ...words } },
      scenario: { ...scenario, ...words },
      provenance: { ...provenance, request: { ...provenance.request, scenario: everyText } },
    },
    { force: false },
  );
  return makePage(readBundleFiles(dir));
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
      trial: { kind: 'run', scenario: everyText, changes: [] },
      replay: everyText,
    },
  };
  const report: MatrixReport = {
    ...headOf({ kind: 'matrix', id: everyText, title: everyText, about: everyText }, []),
    limit_titles: { [everyText]: everyText },
    ...{ faults: [everyText], fault_words: [everyText], corners: [everyText], redundancy: [everyText] },
    ...{ ripple_not_after: [everyText], cells: [cell], states: statesOf([]), passed: 0, runs: 1 },
  };
  const dir = join(root, 'study');
  mkdirSync(dir);
  writeFileSync(join(dir, 'study.json'), JSON.stringify(report));
  return makeStudyPage(dir);
}
