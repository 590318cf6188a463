/** Keeps and prints what a study found: files beside its trials, its exit code, one line, text or JSON. */
import { cautionLines, cautionsMarkdown } from '../../analysis/words/cautions.ts';
import type { StudyHead } from '../../studies/head.ts';
import type { Planned, Study } from '../../studies/study.ts';
import { jsonText, type StudyFiles, studyReportName } from '../disk/study-files.ts';
import { endStudy } from '../disk/study-whole.ts';
import { exit } from '../exit.ts';
import { type Paint, paintFor } from '../terminal/paint.ts';
import { carryOut } from './carry-out.ts';
import { nextWords } from './next-words.ts';
import type { StudyOptions } from './study-options.ts';

/** What a report is printed with. */
export interface Shown {
  readonly paint: Paint;
  /** The command that asks for the same study again. */
  readonly again: string;
  /** Where the report lies, or how to keep one. */
  readonly next: string;
}

/** Carries a study out, keeps its report and prints it; `text`: all of it, for a terminal. */
export async function carryOutAndShow<Plan extends Planned, Report extends Pick<StudyHead, 'cautions'>>(
  study: Study<Plan, Report>,
  plan: Plan,
  { options, again }: { readonly options: StudyOptions; readonly again: string },
  text: (report: Report, shown: Shown) => string,
): Promise<void> {
  const report = await carryOut(study, plan, options);
  if (report === null) return;
  const { out } = options;
  const papers = study.papers(report);
  if (out !== undefined)
    endStudy(out, { [studyReportName]: jsonText(report), ...cautioned(papers, report.cautions) });
  process.exitCode = exit[study.end(report)];
  const sentence = options.quiet === true ? study.sentence(report, plan) : null;
  const shown = {
    paint: paintFor(process.stdout, options.color),
    again,
    next: nextWords(out, again, Object.keys(papers)),
  };
  if (options.json === true) process.stdout.write(jsonText(report));
  else
    process.stdout.write(`${sentence ?? withCautions(text(report, shown), report.cautions, shown.paint)}\n`);
}

/** Papers in Markdown end with what nobody may take from them. */
function cautioned(papers: StudyFiles, cautions: readonly string[]): StudyFiles {
  return Object.fromEntries(
    Object.entries(papers).map(([name, paper]) => [
      name,
      name.endsWith('.md') ? `${paper}${cautionsMarkdown(cautions)}` : paper,
    ]),
  );
}

function withCautions(text: string, cautions: readonly string[], paint: Paint): string {
  return [text, ...cautionLines(cautions).map((line) => paint('faint', line))].join('\n');
}
