/** `--merge`: what parts found, looked through before anything is written. */
import { existsSync, realpathSync } from 'node:fs';
import { BadInput } from '../../base/problem.ts';
import { Bench } from '../../studies/bench/bench.ts';
import { outcomesOf, readParts, type StoredLine } from '../../studies/bench/kept-lines.ts';
import type { Parts, Planned, Study } from '../../studies/study.ts';
import type { StudyOptions } from './study-options.ts';

/** What the parts hold; null where none are merged. Throws BadInput where they leave a trial out, or are to be written over. */
export async function joinedParts<Plan extends Planned, Report>(
  { carryOut, parts }: Study<Plan, Report>,
  plan: Plan,
  { merge, out }: StudyOptions,
): Promise<readonly StoredLine[] | null> {
  if (merge === undefined) return null;
  if (out !== undefined) refuseOver(merge, out);
  const lines = readParts(merge, plan.identity);
  const bench = new Bench({ known: outcomesOf(lines), offline: true });
  const held = heldBy(parts, plan);
  if (held !== null) bench.refuseMissing(held);
  else await carryOut(plan, bench.run);
  return lines;
}

/** What parts hold between them, where the study goes on from there; null where they hold all it asks for. */
export function heldBy<Plan extends Planned>(parts: Parts<Plan> | null, plan: Plan) {
  return parts?.held(plan) ?? null;
}

/** The whole goes to a place of its own, so that a part stays what it is and can be merged again. */
function refuseOver(merge: readonly string[], out: string): void {
  const over =
    existsSync(out) && merge.some((dir) => existsSync(dir) && realpathSync(dir) === realpathSync(out));
  if (!over) return;
  throw new BadInput([
    {
      severity: 'error',
      file: out,
      found: 'one of the parts that are merged',
      expected: 'a place of its own for the whole',
      mend: 'choose another name for --out',
    },
  ]);
}
