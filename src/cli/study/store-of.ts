/** The place where a study keeps its trials, as its options say: claimed, its own, with the inputs beside them. */
import { existsSync, readdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { counted } from '../../base/counted.ts';
import { BadInput, formatProblem, type Problem } from '../../base/problem.ts';
import { claim, claimName } from '../../disk/claim.ts';
import { isPartName } from '../../disk/left-parts.ts';
import { onDisk } from '../../disk/on-disk.ts';
import { dropSumList } from '../../disk/sum-list.ts';
import { type StoredLine, storeName } from '../../studies/bench/kept-lines.ts';
import { Store } from '../../studies/bench/store.ts';
import type { Identity } from '../../studies/identity.ts';
import { isStudyDir } from '../disk/study-folder.ts';
import { writeStudyInputs } from '../disk/study-inputs.ts';
import { keptInputs } from './scenarios.ts';
import type { StudyOptions } from './study-options.ts';

/** `joined`: what merged parts found, taken in; null where nothing is kept. Throws BadInput, and leaves no folder that was not there. */
export function storeOf(
  identity: Identity,
  options: StudyOptions,
  joined: readonly StoredLine[] | null,
): Store | null {
  const { out } = options;
  if (out === undefined) return null;
  const isNew = !existsSync(out);
  if (!isNew) refuseForeign(out, options);
  try {
    return begunStore(out, identity, options, joined);
  } catch (error) {
    // A place that was made for it, and where it could not begin, is no study to go on with.
    if (isNew) rmSync(out, { recursive: true, force: true });
    throw error;
  }
}

/** A folder that holds other things than a study is nobody's to write to, with --force neither. */
function refuseForeign(out: string, { resume, force }: StudyOptions): void {
  const names = onDisk(out, () => readdirSync(out));
  const others = names.filter((name) => name !== claimName && !isPartName(name));
  if (names.includes(storeName) || others.length === 0) return;
  if (isStudyDir(out)) refuseLost(out, resume === true || force === true);
  else refuseOthers(out, others);
}

/** A study whose trials are gone is carried out anew where that is asked for. */
function refuseLost(out: string, isAsked: boolean): void {
  if (isAsked) return;
  throw new BadInput([
    {
      severity: 'error',
      file: out,
      found: `a study without its ${storeName}`,
      expected: 'an empty place, or a wish to go on',
      mend: 'give --resume or --force: either runs its trials again',
    },
  ]);
}

function refuseOthers(out: string, others: readonly string[]): void {
  throw new BadInput([
    {
      severity: 'error',
      file: out,
      found: `a folder with other files in it: ${others.slice(0, 3).join(', ')}`,
      expected: 'a name that is free, an empty folder, or a study',
      mend: 'choose another name; what is no study is never written over',
    },
  ]);
}

function begunStore(
  out: string,
  identity: Identity,
  { resume, force }: StudyOptions,
  joined: readonly StoredLine[] | null,
): Store {
  claim(out);
  const store = Store.open(out, identity, force === true ? 'replace' : resume === true ? 'resume' : 'new');
  if (store.spoilt > 0) process.stderr.write(`${formatProblem(spoilt(store))}\n`);
  // What lies there is being written again: its sums are listed when it has come to its end.
  dropSumList(out);
  // So would its page show what was found before.
  rmSync(join(out, 'page.html'), { force: true });
  if (joined !== null) store.addAll(joined);
  // Before a trial is run: what is written to the files meanwhile is no part of the study.
  writeStudyInputs(out, keptInputs());
  return store;
}

function spoilt({ path, spoilt }: Store): Problem {
  return {
    severity: 'warning',
    file: path,
    found: `${counted(spoilt, 'line')} not as written`,
    expected: 'lines that match their checksums',
    mend: 'nothing to do: the trials of these lines are run again',
  };
}
