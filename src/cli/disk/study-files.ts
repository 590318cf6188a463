/** Writes files of a study beside its trials: the report as JSON, Markdown, tables as CSV, inputs. */
import { mkdirSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { clearLeftParts } from '../../base/left-parts.ts';

export interface StudyFiles {
  /** Name of the file → its text or its bytes. */
  readonly [name: string]: string | Uint8Array;
}

/** Each under a temporary name first, so that no half file is left behind. */
export function writeStudyFiles(dir: string, files: StudyFiles): void {
  mkdirSync(dir, { recursive: true });
  for (const [name, text] of Object.entries(files)) {
    const path = join(dir, name);
    clearLeftParts(path);
    const fresh = `${path}.${process.pid}.part`;
    writeFileSync(fresh, text);
    renameSync(fresh, path);
  }
}

export const studyReportName = 'study.json';

export function jsonText(report: unknown): string {
  return `${JSON.stringify(report, null, 2)}\n`;
}
