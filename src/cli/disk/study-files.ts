/** Writes files of a study beside its trials: the report as JSON, Markdown, tables as CSV, inputs. */
import { join } from 'node:path';
import { writeWhole } from '../../disk/write-file.ts';

export interface StudyFiles {
  /** Name of the file → its text or its bytes. */
  readonly [name: string]: string | Uint8Array;
}

/** Each whole or not at all. Throws BadInput where it cannot be written. */
export function writeStudyFiles(dir: string, files: StudyFiles): void {
  for (const [name, text] of Object.entries(files)) writeWhole(join(dir, name), text);
}

export const studyReportName = 'study.json';

export function jsonText(report: unknown): string {
  return `${JSON.stringify(report, null, 2)}\n`;
}
