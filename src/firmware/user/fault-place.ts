/** The place in the user's own file that a stack of its translated text names. */
import { SourceMap } from 'node:module';
import type { ControllerSpec } from '../../scenario/scenario.ts';
import type { FaultPlace } from './fault.ts';

/** The first line of the user's file in a stack, as the user wrote it; nothing where it names none. */
export function placeIn({ file, map }: ControllerSpec, stack: string): FaultPlace {
  const at = stack.split(`${file}:`)[1];
  const [, line, column] = /^(\d+)(?::(\d+))?/.exec(at ?? '') ?? [];
  if (line === undefined) return {};
  const entry = new SourceMap(JSON.parse(map)).findEntry(Number(line) - 1, Number(column ?? 1) - 1);
  return 'originalLine' in entry ? { line: entry.originalLine + 1, column: entry.originalColumn + 1 } : {};
}
