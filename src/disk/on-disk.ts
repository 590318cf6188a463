/** Writing as the user sees it: what the file system refuses is a problem of the place that was named, with a way out. */
import { BadInput } from '../base/problem.ts';

interface Refusal {
  readonly found: string;
  readonly mend: string;
}

const elsewhere = 'choose another place';

const refusals: Readonly<Record<string, Refusal>> = {
  ENOSPC: { found: 'a disk that is full', mend: 'make room there, or choose another place' },
  EDQUOT: { found: 'a quota that is used up', mend: 'make room there, or choose another place' },
  EFBIG: { found: 'a file that grows beyond what is allowed there', mend: elsewhere },
  EACCES: { found: 'a place that you may not write to', mend: elsewhere },
  EPERM: { found: 'a place that you may not write to', mend: elsewhere },
  EROFS: { found: 'a place that can be read only', mend: elsewhere },
  ENOTDIR: { found: 'a path that leads through a file', mend: 'correct the path' },
  EEXIST: { found: 'a path that leads through a file', mend: 'correct the path' },
  EISDIR: { found: 'a folder where a file is to be', mend: elsewhere },
  ENAMETOOLONG: { found: 'a name that is too long', mend: 'choose a shorter one' },
};

/** Runs `work`; what the file system refuses becomes a problem of `target`. */
export function onDisk<T>(target: string, work: () => T): T {
  try {
    return work();
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? error.code : undefined;
    // A fault of the call itself is ours.
    if (typeof code !== 'string' || code.startsWith('ERR_')) throw error;
    throw unwritable(target, code);
  }
}

function unwritable(target: string, code: string): BadInput {
  const { found, mend } = refusals[code] ?? {
    found: `a place that cannot be written (${code})`,
    mend: elsewhere,
  };
  const expected = 'a place that can be written, with room for it';
  // Half of it lies under a name that nobody gave.
  const file = target.replace(/\.\d+\.buswake-part(?=[/\\]|$)/, '');
  return new BadInput([{ severity: 'error', file, found, expected, mend }], 'Nothing was kept.');
}
