/**
 * Controllers of the user's own: which module runs in place of which firmware task. TypeScript becomes JavaScript
 * here, its map kept, so that a failure is named at the line the user wrote.
 */
import { transform } from 'sucrase';
import type { Problem } from '../../base/problem.ts';
import type { ControllerSpec } from '../scenario.ts';
import { asBranch, asLeaf, joined, refuseUnknownKeys, required } from '../text/branches.ts';
import type { Desk } from '../text/desk.ts';
import { type Branch, type Leaf, problemAt } from '../text/document.ts';
import { listed, nearestWords } from '../text/nearest.ts';
import { besideFile } from '../text/paths.ts';
import { readShown } from './shown-numbers.ts';

/** Tasks that a module may replace. */
export const replaceable = ['share', 'smoothing', 'voltage-loop', 'hand-over'] as const;

/** Modules made before, by path and text: studies read the same scenario many times. */
const made = new Map<string, Pick<ControllerSpec, 'code' | 'map'>>();

/** Reads `controllers:`; none where there is none. */
export function readControllers(file: string, root: Branch, desk: Desk): ControllerSpec[] {
  const node = root.entries.get('controllers')?.node;
  if (node === undefined) return [];
  const { problems } = desk;
  if (node.kind !== 'row') {
    problems.push(
      problemAt(
        node.origin,
        'controllers',
        'no list',
        'a list of controllers',
        'write - { replaces: share, file: ../models/controllers/share-as-built.ts }',
      ),
    );
    return [];
  }
  const taken = new Set<string>();
  return node.items.flatMap((item, i): ControllerSpec[] => {
    const path = `controllers.${i + 1}`;
    const branch = asBranch(item, path, problems);
    if (branch === null) return [];
    refuseUnknownKeys(branch, ['replaces', 'file', 'shows'], path, problems);
    const word = (key: string, means: string): Leaf | null => {
      const entry = required(branch, key, path, means, problems);
      return entry === null ? null : asLeaf(entry.node, joined(path, key), problems);
    };
    const task = word('replaces', listed(replaceable));
    const name = word('file', 'a JavaScript or TypeScript module');
    if (task === null || name === null) return [];
    const replaces = replaceable.find((known) => known === task.text);
    if (replaces === undefined) {
      const near = nearestWords(task.text, replaceable, 1)[0];
      problems.push(
        problemAt(
          task.origin,
          joined(path, 'replaces'),
          task.text === '' ? 'nothing' : task.text,
          listed(replaceable),
          near === undefined ? 'write one of them' : `did you mean ${near}?`,
        ),
      );
      return [];
    }
    if (taken.has(replaces)) {
      problems.push(
        problemAt(
          task.origin,
          joined(path, 'replaces'),
          `${replaces} a second time`,
          'one controller for a task',
          'keep one of the two',
        ),
      );
      return [];
    }
    taken.add(replaces);
    const target = besideFile(file, name.text);
    const text = desk.text(target, name.origin, joined(path, 'file'));
    const module = text === null ? null : javaScript(target, text, path, problems);
    const sha256 = desk.inputs.find((input) => input.path === target)?.sha256 ?? '';
    const shows = readShown(branch, joined(path, 'shows'), problems);
    return module === null ? [] : [{ replaces, file: target, sha256, shows, ...module }];
  });
}

function javaScript(
  file: string,
  text: string,
  path: string,
  problems: Problem[],
): Pick<ControllerSpec, 'code' | 'map'> | null {
  const key = `${file}\u0000${text}`;
  try {
    const module = made.get(key) ?? translated(file, text);
    made.set(key, module);
    return module;
  } catch (error) {
    problems.push({
      severity: 'error',
      file,
      ...placeOf(error),
      path,
      found: wordsOf(error, file),
      expected: 'a JavaScript or TypeScript module',
      mend: 'correct the module at this place',
    });
    return null;
  }
}

/** What only V8 refuses is refused where the module is put into its context. */
function translated(file: string, text: string): Pick<ControllerSpec, 'code' | 'map'> {
  const { code, sourceMap } = transform(text, {
    transforms: /\.[cm]?ts$/.test(file) ? ['typescript', 'imports'] : ['imports'],
    disableESTransforms: true,
    filePath: file,
    sourceMapOptions: { compiledFilename: file },
  });
  return { code, map: JSON.stringify(sourceMap) };
}

function placeOf(error: unknown): Pick<Problem, 'line' | 'column'> {
  const loc = error instanceof Error && 'loc' in error ? error.loc : null;
  if (typeof loc !== 'object' || loc === null || !('line' in loc && 'column' in loc)) return {};
  const { line, column } = loc;
  return typeof line === 'number' && typeof column === 'number' ? { line, column } : {};
}

/** What the translator says, without file and place, which are said by themselves. */
function wordsOf(error: unknown, file: string): string {
  const said = error instanceof Error ? error.message : String(error);
  return said.replace(`Error transforming ${file}: `, '').replace(/ \(\d+:\d+\)$/, '');
}
