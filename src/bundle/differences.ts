/**
 * What differs between a kept bundle and the run made again from it, file by file. Both are taken as the bytes that
 * a bundle holds, so that whatever a later version keeps is compared as well.
 */
import { type FileName, fileNames, type Manifest, manifestName } from './format.ts';
import { looseJson, parseLoose } from './json.ts';
import { type Difference, jsonDifferences, type Tell } from './json-differences.ts';
import { columnDifferences, wakeDifferences } from './sample-differences.ts';

/** A bundle as bytes, with its manifest. */
export interface BundleBytes {
  readonly manifest: Manifest;
  readonly files: ReadonlyMap<string, Uint8Array>;
}

/** One file of the bundle: how many places differ, and the first of them. */
export interface FileDifferences {
  readonly name: string;
  readonly differences_count: number;
  readonly first: readonly Difference[];
}

const firstShown = 5;

/** Every file but those of the inputs, which the run was made from; in the order of the format, the manifest last. */
export function bundleDifferences(kept: BundleBytes, again: BundleBytes): FileDifferences[] {
  return [
    ...fileNames.map((name) => differencesOf(name, (tell) => fileDifferences(name, kept, again, tell))),
    differencesOf(manifestName, (tell) =>
      jsonDifferences(comparable(kept.manifest), comparable(again.manifest), tell),
    ),
  ];
}

function differencesOf(name: string, walk: (tell: Tell) => void): FileDifferences {
  const first: Difference[] = [];
  let differences_count = 0;
  walk((difference) => {
    differences_count += 1;
    if (first.length < firstShown) first.push(difference);
  });
  return { name, differences_count, first };
}

function fileDifferences(name: FileName, kept: BundleBytes, again: BundleBytes, tell: Tell): void {
  const a = kept.files.get(name)!;
  const b = again.files.get(name)!;
  if (sameBytes(a, b)) return;
  const { wake, columns } = again.manifest;
  switch (name) {
    case 'wake.f32':
      wakeDifferences(wake, a, b, tell);
      break;
    case 'streams.f64':
      columnDifferences(columns, a, b, tell);
      break;
    case 'report.json':
      jsonDifferences(timeless(parsed(a)), timeless(parsed(b)), tell);
      break;
    default:
      jsonDifferences(parsed(a), parsed(b), tell);
  }
  if (name.endsWith('.json') && !isOwnText(a)) {
    tell({
      where: 'text',
      kept: 'not as a bundle is written: a key twice, other spacing',
      again: 'as written',
    });
  }
}

/** Whether a file of JSON is, but for its values, what a bundle writes: reading forgives a key that stands twice. */
function isOwnText(bytes: Uint8Array): boolean {
  const value = parsed(bytes);
  return new TextDecoder().decode(bytes) === looseJson(value);
}

function sameBytes(a: Uint8Array, b: Uint8Array): boolean {
  if (a.length !== b.length) return false;
  for (let k = 0; k < a.length; k += 1) if (a[k] !== b[k]) return false;
  return true;
}

/** The value of a file of JSON. What is no JSON is shown as the text it is. */
function parsed(bytes: Uint8Array): unknown {
  const text = new TextDecoder().decode(bytes);
  try {
    return parseLoose(text);
  } catch {
    return text;
  }
}

/** A report without how long the engine took, which is another each time. */
function timeless(report: unknown): unknown {
  if (typeof report !== 'object' || report === null || !('engine' in report)) return report;
  const { engine } = report;
  if (typeof engine !== 'object' || engine === null) return report;
  return { ...report, engine: { ...engine, wall_s: null, realtime_ratio: null } };
}

/** What of a manifest the run itself decides: sums follow from the files, and who ran it is told apart. */
function comparable({ build: _build, files, ...rest }: Manifest): unknown {
  return { ...rest, files: files.map(({ name, holds }) => ({ name, holds })) };
}
