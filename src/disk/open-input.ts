/**
 * Opens a file that a user named. Regular files alone: a device gives bytes for ever, a pipe may wait for ever, and
 * neither can be read a second time; what comes from another program goes through standard input, named `-`.
 */
import { closeSync, constants, fstatSync, openSync, type Stats, statfsSync } from 'node:fs';
import { BadInput } from '../base/problem.ts';

export interface OpenInput {
  readonly file: number;
  /** 0 where standard input does not tell. */
  readonly size: number;
}

/** `name`: what problems call it. Throws BadInput. */
export function openInput(path: string, name: string = path): OpenInput {
  if (path === '-') return { file: 0, size: fstatSync(0).size };
  const file = opened(path, name);
  const found = fstatSync(file);
  if (found.isFile() && !isMadeByKernel(path)) return { file, size: found.size };
  closeSync(file);
  throw notRegular(name, found);
}

/**
 * Of a file system that Linux makes up as it is read (proc, sysfs, debugfs, tracefs; numbers of linux/magic.h): some of its
 * files are called regular and wait for ever.
 */
function isMadeByKernel(path: string): boolean {
  return kernelMade.has(statfsSync(path).type);
}

const kernelMade: ReadonlySet<number> = new Set([0x9fa0, 0x62656572, 0x64626720, 0x74726163]);

/** A pipe without a writer opens at once that way. */
function opened(path: string, name: string): number {
  try {
    return openSync(path, constants.O_RDONLY | constants.O_NONBLOCK);
  } catch (error) {
    throw unreadable(error, name);
  }
}

/** What the file system said of a file that could not be read. */
export function unreadable(error: unknown, name: string): BadInput {
  const code = error instanceof Error && 'code' in error ? String(error.code) : null;
  if (code === null) throw error;
  return refused(
    name,
    reasons[code] === undefined ? `a file that cannot be read (${code})` : `${reasons[code]} ${name}`,
    'a file that can be read',
    code === 'EACCES' || code === 'EPERM'
      ? 'see to it that you may read it, and every folder above it'
      : 'correct the name or add the file',
  );
}

const reasons: Readonly<Record<string, string>> = {
  ENOENT: 'no file',
  ENOTDIR: 'no file',
  EACCES: 'no permission to read',
  EPERM: 'no permission to read',
  ELOOP: 'links that lead in a circle:',
};

function notRegular(name: string, found: Stats): BadInput {
  if (found.isDirectory())
    return refused(name, `${name}, a folder`, 'a file that can be read', 'correct the name or add the file');
  return refused(
    name,
    `${name}, ${kindOf(found)}`,
    'a regular file, or - for standard input',
    'let the other program write to the standard input of this one, and name -',
  );
}

function kindOf(found: Stats): string {
  if (found.isFIFO()) return 'a pipe';
  if (found.isSocket()) return 'a socket';
  return found.isFile() ? 'made by the system as it is read' : 'a device';
}

function refused(file: string, found: string, expected: string, mend: string): BadInput {
  return new BadInput([{ severity: 'error', file, found, expected, mend }]);
}
