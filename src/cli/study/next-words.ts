import { quotedPlace } from '../../studies/trials/replay.ts';

/** Where the report lies, or how to keep one. `papers`: what was written beside the JSON. */
export function nextWords(out: string | undefined, again: string, papers: readonly string[]): string {
  if (out === undefined) return `keep the report: ${again} --out out/study`;
  const page = `as a page: buswake view ${quotedPlace(out)}`;
  return papers.includes('study.md') ? `report: ${out}/study.md; ${page}` : page;
}
