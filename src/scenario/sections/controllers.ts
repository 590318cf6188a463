/**
 * Controllers of the user's own: which module runs in place of which firmware task. TypeScript becomes JavaScript
 * here, its map kept, so that a failure is named at the line the user wrote.
 */
import { createRequire } from 'node:module';
import type { TransformFailure, TransformResult } from 'esbuild';
import type { Problem } from '../../base/problem.ts';
import type { ControllerSpec } from '../scenario.ts';
import { asBranch, asLeaf, joined, refuseUnknownKeys, required } from '../text/branches.ts';
import type { Desk } from '../text/desk.ts';
import { type Branch, type Leaf, problemAt } from '../text/document.ts';
import { listed, nearestWords } from '../text/nearest.ts';
import { besideFile } from '../text/paths.ts';

/** Loaded by who has such a module alone: it takes as long to load as a scenario to read. */
const needed = createRequire(import.meta.url);

/** Tasks that a module may replace. */
export const replaceable = ['share', 'smoothing'] as const;

/** Modules made before, by path and text: studies read the same scenario many times. */
const made = new Map<string, TransformResult>();

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
    refuseUnknownKeys(branch, ['replaces', 'file'], path, problems);
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
    return module === null ? [] : [{ replaces, file: target, sha256, ...module }];
  });
}

function javaScript(
  file: string,
  text: string,
  path: string,
  problems: Problem[],
): Pick<ControllerSpec, 'code' | 'map'> | null {
  const key = `${file}\u0000${text}`;
  const { transformSync }: typeof import('esbuild') = needed('esbuild');
  try {
    const result =
      made.get(key) ??
      transformSync(text, {
        loader: /\.[cm]?ts$/.test(file) ? 'ts' : 'js',
        format: 'cjs',
        target: 'es2023',
        sourcemap: 'external',
        sourcefile: file,
        logLevel: 'silent',
      });
    made.set(key, result);
    return { code: result.code, map: result.map };
  } catch (error) {
    for (const { text: found, location } of (error as TransformFailure).errors) {
      problems.push({
        severity: 'error',
        file,
        ...(location === null ? {} : { line: location.line, column: location.column + 1 }),
        path,
        found,
        expected: 'a JavaScript or TypeScript module',
        mend: 'correct the module at this place',
      });
    }
    return null;
  }
}
