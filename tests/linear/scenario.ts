/** The shipped cabinet for tests of the linear analysis. */
import { readTextFile } from '../../src/disk/read-file.ts';
import { readScenario } from '../../src/scenario/read.ts';
import type { Change, Scenario } from '../../src/scenario/scenario.ts';

/** A shipped scenario with changes written as `path=value`. */
export function shipped(name: string, ...words: readonly string[]): Scenario {
  const changes: Change[] = words.map((word) => {
    const cut = word.indexOf('=');
    return { path: word.slice(0, cut), value: word.slice(cut + 1) };
  });
  const file = new URL(`../../scenarios/${name}.yaml`, import.meta.url).pathname;
  return readScenario(file, { files: readTextFile, changes }).scenario;
}

/** Distance of two numbers over the larger of them and `floor`. */
export function apart(a: number, b: number, floor = 0): number {
  return Math.abs(a - b) / Math.max(Math.abs(a), Math.abs(b), floor, Number.MIN_VALUE);
}
