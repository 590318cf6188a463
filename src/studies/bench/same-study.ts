import { BadInput, type Problem } from '../../base/problem.ts';
import { canonical } from '../canonical.ts';
import { type Identity, sumOf } from '../identity.ts';

/** What a store says of the study that it keeps. */
export interface Head extends Identity {
  readonly buswake_study: number;
  readonly sha256: string;
}

/** Refuses stores of another study than this, all at once: with both sums, and what differs. */
export function refuseChanged(
  stores: readonly { readonly path: string; readonly old: Head }[],
  identity: Identity,
): void {
  const strangers = stores.filter(({ old }) => old.sha256 !== sumOf(identity));
  if (strangers.length > 0)
    throw new BadInput(strangers.map(({ path, old }) => changed(path, old, identity)));
}

function changed(path: string, old: Head, now: Identity): Problem {
  const before = new Map(old.inputs.map(({ path: file, sha256 }) => [file, sha256]));
  const files = now.inputs.filter(({ path: file, sha256 }) => before.get(file) !== sha256);
  const gone = old.inputs.filter(({ path: file }) => !now.inputs.some((input) => input.path === file));
  const what = [
    ...files.map(
      ({ path: file, sha256 }) =>
        `${file} (${(before.get(file) ?? 'not read').slice(0, 12)} then, ${sha256.slice(0, 12)} now)`,
    ),
    ...gone.map(({ path: file }) => `${file} (no longer read)`),
    ...(canonical(old.study) === canonical(now.study) ? [] : ['the study itself']),
    ...(old.tool_version === now.tool_version
      ? []
      : [`buswake ${old.tool_version}, now ${now.tool_version}`]),
  ];
  return {
    severity: 'error',
    file: path,
    found: `a study with sum ${old.sha256}`,
    expected: `the study requested now, with sum ${sumOf(now)}; changed: ${what.join(', ')}`,
    mend: 'restore the inputs and give the options it was begun with, or carry it out again with --force',
  };
}
