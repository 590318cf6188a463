/** The report of a study as it was kept: looked at before anything is drawn from it. Pure: the page uses it as well. */
import { BadInput } from '../base/problem.ts';
import { studyVersion } from './head.ts';

/** Kinds of study that have a page. */
export const drawnKinds = [
  'size',
  'designs',
  'rating',
  'matrix',
  'spread',
  'duty',
  'gains',
  'response',
  'fit',
] as const;

/** A response is linear about one point: nothing of it is a run. */
export function hasTrials({ kind }: KeptReport): boolean {
  return kind !== 'response';
}

/** A report of one of these kinds; what else it holds is as the study left it. */
export interface KeptReport {
  readonly kind: (typeof drawnKinds)[number];
  readonly study: string;
  readonly title: string;
  readonly about: string;
  readonly cautions?: unknown;
}

/** Throws BadInput where the bytes of `file` are no report that can be drawn, with what is wrong and what to do. */
export function readStudyReport(bytes: Uint8Array, file: string): KeptReport {
  const refuse = (found: string, expected: string, mend: string): never => {
    throw new BadInput([{ severity: 'error', file, found, expected, mend }]);
  };
  const again = 'it was cut short, changed or is of something else: carry out the study again with --out';
  const value = parsed(bytes);
  if (value === undefined) return refuse('text that is not JSON', 'the report of a study', again);
  const {
    schema_version: version,
    kind,
    study,
    title,
    about,
    scenario,
  } = Object(value) as Record<string, unknown>;
  // Share cases name their scenario, and have no kind.
  if (typeof version !== 'number' || (typeof kind !== 'string' && typeof scenario !== 'string'))
    return refuse('JSON that is no report', 'the report of a study, with its version and kind', again);
  if (version > studyVersion)
    return refuse(
      `a report of version ${version}`,
      `a report of version ${studyVersion}`,
      'read it with the version of the tool that wrote it, or carry out the study again',
    );
  const drawn = drawnKinds.find((one) => one === kind);
  if (drawn === undefined)
    return refuse(
      'a study without a page: tests of the share loop',
      `a study of kind ${drawnKinds.join(', ')}`,
      `read ${file} itself, or the text that the command prints`,
    );
  const later = 'carry out the study again with --out DIR --resume: its trials are kept and not run again';
  if (version < studyVersion)
    return refuse(`a report of version ${version}`, `a report of version ${studyVersion}`, later);
  const lacking = grown[drawn]?.(value as object) ?? null;
  if (lacking !== null)
    return refuse(`a report without ${lacking}: an older build kept it`, `a report with ${lacking}`, later);
  if (typeof study !== 'string' || typeof title !== 'string' || typeof about !== 'string')
    return refuse('a report without its head', 'study, title and about as text', again);
  return { ...(value as object), kind: drawn, study, title, about };
}

/** What reports of a kind came to hold without another version; each names what a report lacks, or null. */
const grown: Readonly<Partial<Record<KeptReport['kind'], (report: object) => string | null>>> = {
  response: (report) =>
    ['state', 'over', 'injected'].every((key) => key in report) ? null : 'the state that it is about',
  spread: (report) => {
    const { rare } = report as { readonly rare?: { readonly regions?: unknown } };
    if (rare === undefined) return null;
    const regions = Array.isArray(rare.regions) ? rare.regions : [undefined];
    return regions.every((region) => Array.isArray(Object(region).middle))
      ? null
      : 'the middle of each region of what fails';
  },
};

function parsed(bytes: Uint8Array): unknown {
  try {
    return JSON.parse(new TextDecoder().decode(bytes));
  } catch {
    return undefined;
  }
}
