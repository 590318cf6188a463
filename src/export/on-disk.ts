import { BadInput } from '../base/problem.ts';

/** Runs `work`; what the file system refuses becomes a problem of `target`. */
export function onDisk<T>(target: string, work: () => T): T {
  try {
    return work();
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? error.code : undefined;
    if (typeof code !== 'string') throw error;
    throw new BadInput([
      {
        severity: 'error',
        file: target,
        found: `a place that cannot be written (${code})`,
        expected: 'a folder that exists or can be made, with room for the file',
        mend: 'choose another place, fewer channels, or a rate instead of every step',
      },
    ]);
  }
}
