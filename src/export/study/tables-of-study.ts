/** The tables of a kept study, by its kind. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { BadInput } from '../../base/problem.ts';
import { readBytes } from '../../disk/read-file.ts';
import { readOutcomes, storeName } from '../../studies/bench/kept-lines.ts';
import type { DesignsReport } from '../../studies/designs/report.ts';
import type { DutyReport } from '../../studies/duty/report.ts';
import type { FitReport } from '../../studies/fit/fit-report.ts';
import type { GainsReport } from '../../studies/gains/report.ts';
import type { MatrixReport } from '../../studies/matrix/report.ts';
import type { RatingReport } from '../../studies/rating/report.ts';
import type { ResponseReport } from '../../studies/response/report.ts';
import type { SizeReport } from '../../studies/size/report.ts';
import type { SpreadReport } from '../../studies/spread/report.ts';
import type { ExportTable } from '../table.ts';
import { designsTables } from './designs.ts';
import { dutyTables } from './duty.ts';
import { fitTables } from './fit.ts';
import { gainsTables } from './gains.ts';
import { matrixTables } from './matrix.ts';
import { ratingTables } from './rating.ts';
import { responseTables } from './response.ts';
import { sizeTables } from './size.ts';
import { spreadTables } from './spread.ts';
import { trialsTable } from './trials.ts';

type StudyReport =
  | (ResponseReport & { readonly kind: 'response' })
  | (GainsReport & { readonly kind: 'gains' })
  | (MatrixReport & { readonly kind: 'matrix' })
  | (SpreadReport & { readonly kind: 'spread' })
  | (SizeReport & { readonly kind: 'size' })
  | (DesignsReport & { readonly kind: 'designs' })
  | (RatingReport & { readonly kind: 'rating' })
  | (DutyReport & { readonly kind: 'duty' })
  | (FitReport & { readonly kind: 'fit' });

/** Lists that the tables of each kind are made of. */
const lists: Readonly<Record<StudyReport['kind'], readonly string[]>> = {
  response: ['curves', 'modes'],
  gains: ['axes', 'cells'],
  matrix: ['cells'],
  spread: ['samples', 'drawn'],
  size: ['table', 'candidates'],
  designs: ['designs', 'front'],
  rating: ['table', 'curve'],
  duty: ['stretches', 'findings', 'course', 'last_course', 'moments'],
  fit: ['channels', 'would_explain'],
};

/** Tables of the study kept in `dir`, whose report is called `reportName`; empty ones are left out. */
export function tablesOfStudy(dir: string, reportName: string): readonly ExportTable[] {
  const path = join(dir, reportName);
  const report = reportOf(readBytes(path).toString('utf8'), path);
  const trials = existsSync(join(dir, storeName)) ? [trialsTable(readOutcomes(dir).allOf('run'))] : [];
  return [...ownTables(report), ...trials].filter(({ rows }) => rows > 0);
}

function ownTables(report: StudyReport): readonly ExportTable[] {
  switch (report.kind) {
    case 'response':
      return responseTables(report);
    case 'gains':
      return gainsTables(report);
    case 'matrix':
      return matrixTables(report);
    case 'spread':
      return spreadTables(report);
    case 'size':
      return sizeTables(report);
    case 'designs':
      return designsTables(report);
    case 'rating':
      return ratingTables(report);
    case 'duty':
      return dutyTables(report);
    case 'fit':
      return fitTables(report);
  }
}

/** Throws BadInput where the text is no report of a known kind with its lists. */
function reportOf(text: string, file: string): StudyReport {
  const report = parsed(text);
  const kinds = Object.keys(lists).join(', ');
  const problem = (found: string): BadInput =>
    new BadInput([
      {
        severity: 'error',
        file,
        found,
        expected: `the report of a study: ${kinds}`,
        mend: 'name a directory that a study of this version wrote with --out, or run the study again',
      },
    ]);
  if (report === null) throw problem('no report of a study');
  if (!isReport(report)) throw problem(`a report of kind ${String(report['kind'])} without its lists`);
  return report;
}

function parsed(text: string): Record<string, unknown> | null {
  try {
    const value: unknown = JSON.parse(text);
    return typeof value === 'object' && value !== null ? { ...value } : null;
  } catch {
    return null;
  }
}

function isReport(report: object): report is StudyReport {
  const fields = new Map<string, unknown>(Object.entries(report));
  const needed = new Map<unknown, readonly string[]>(Object.entries(lists)).get(fields.get('kind'));
  return needed?.every((name) => Array.isArray(fields.get(name))) ?? false;
}
