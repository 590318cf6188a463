/**
 * Licences of the packages whose code is in `dist`, read where it came from: the build puts them beside that code, as their
 * terms ask, and refuses a package whose terms are not among those that allow it.
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Metafile } from 'esbuild';

/** Terms that ask for no more than to be repeated. */
const permissive = new Set(['MIT', 'ISC', 'BSD-2-Clause', 'BSD-3-Clause', 'Apache-2.0', '0BSD', 'Unlicense']);

export interface Licensed {
  readonly name: string;
  readonly version: string;
  readonly licence: string;
  /** Its licence file; null where it has none. */
  readonly text: string | null;
}

/** Packages that some bundle holds code of, by name. Throws where one's terms are not known to allow it. */
export function licensedIn(bundles: readonly Metafile[]): Licensed[] {
  const folders = new Set(
    bundles
      .flatMap(({ outputs }) => Object.values(outputs))
      .flatMap(({ inputs }) => Object.entries(inputs))
      .filter(([, { bytesInOutput }]) => bytesInOutput > 0)
      .flatMap(([path]) => /^.*node_modules\/(?:@[^/]+\/)?[^/]+(?=\/)/.exec(path)?.[0] ?? []),
  );
  return [...folders].map(licensed).sort((a, b) => (a.name < b.name ? -1 : 1));
}

/** Of one package, by its folder. */
export function licensed(folder: string): Licensed {
  const { name, version, license } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')) as {
    readonly name: string;
    readonly version: string;
    readonly license?: string;
  };
  if (license === undefined || !permissive.has(license))
    throw new Error(`${name} ${version} has licence ${license}, not one of ${[...permissive].join(', ')}`);
  const file = readdirSync(folder).find((entry) => /^licen[cs]e(\.|$)/i.test(entry));
  const text = file === undefined ? null : readFileSync(join(folder, file), 'utf8').trim();
  return { name, version, licence: license, text };
}

/** As they stand beside the built code. */
export function licencesText(packages: readonly Licensed[]): string {
  const one = ({ name, version, licence, text }: Licensed): string =>
    `${name} ${version}, ${licence}\n\n${text ?? 'No licence file; its package names the licence.'}\n`;
  return `This folder holds code of the following packages.\n\n${packages.map(one).join(`\n${'-'.repeat(72)}\n\n`)}`;
}

/** Packages that an installation brings along, those that they need included, by their folders. */
export function installedWith(names: readonly string[], root = 'node_modules'): string[] {
  const found = new Set<string>();
  const add = (name: string): void => {
    const folder = join(root, name);
    if (found.has(folder) || !existsSync(folder)) return;
    found.add(folder);
    const { dependencies = {}, optionalDependencies = {} } = JSON.parse(
      readFileSync(join(folder, 'package.json'), 'utf8'),
    ) as Readonly<Record<string, Readonly<Record<string, string>>>>;
    Object.keys({ ...dependencies, ...optionalDependencies }).forEach(add);
  };
  names.forEach(add);
  return [...found].sort();
}
