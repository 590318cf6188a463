/** The laws of the firmware in C99, made where they are not those of the sources as they are. They are not kept in the repository. */
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { LawName } from '../../src/firmware/law-run.ts';
import { sumsOf } from '../file-sums.ts';

/** The module of each law. */
const entries: Readonly<Record<LawName, string>> = {
  share: 'src/firmware/share/share-law.ts',
  smoothing: 'src/firmware/tray/smoothing-law.ts',
  charge: 'src/firmware/tray/charge-law.ts',
  voltage: 'src/firmware/shelf/voltage-law.ts',
};

const folder = 'src/embed/made';
const files = {
  module: join(folder, 'laws.ts'),
  followed: join(folder, 'followed.ts'),
  sums: join(folder, 'sources.json'),
} as const;

/** What translates, beside the laws themselves. */
const tools = [
  'package-lock.json',
  'scripts/kernel/program.ts',
  'scripts/kernel/reach.ts',
  ...['scripts/c99', 'scripts/c99/steps'].flatMap((folder) =>
    readdirSync(folder).flatMap((name) => (name.endsWith('.ts') ? [`${folder}/${name}`] : [])),
  ),
];

export async function buildLaws(): Promise<void> {
  if (Object.values(files).every((file) => existsSync(file))) {
    const kept = readFileSync(files.sums, 'utf8');
    if (JSON.stringify(sumsOf(Object.keys(JSON.parse(kept))), null, 1) === kept) return;
  }
  const { translateLaw } = await import('./translate.ts');
  const { programOf } = await import('../kernel/program.ts');
  const program = programOf(...Object.values(entries));
  const laws = Object.fromEntries(
    Object.entries(entries).map(([law, entry]) => [law, translateLaw(entry, program)]),
  );
  const inC = Object.fromEntries(Object.entries(laws).map(([law, { inC: text }]) => [law, text]));
  const sources = Object.values(laws).flatMap((law) => law.inC.sources);
  mkdirSync(folder, { recursive: true });
  writeFileSync(
    files.module,
    `/** The laws of the firmware in C99, made by \`npm run build\` (scripts/c99). */
import type { LawName } from '../../firmware/law-run.ts';
import type { LawInC } from '../law-in-c.ts';

export const laws: Readonly<Record<LawName, LawInC>> = ${JSON.stringify(inC, null, 1)};
`,
  );
  const followed = Object.entries(laws).map(([law, { followed: text }]) => `${law}: ${text},`);
  writeFileSync(
    files.followed,
    `// @ts-nocheck: parameters that only some of its functions use.
/** The laws of the firmware whose arithmetic is steps, made by \`npm run build\` (scripts/c99). */
import type { LawName } from '../../firmware/law-run.ts';
import type { Steps } from '../fixed/steps.ts';

export const followed: Readonly<Record<LawName, (steps: Steps<any>, ...taken: any[]) => void>> = {
${followed.join('\n')}
};
`,
  );
  writeFileSync(files.sums, JSON.stringify(sumsOf([...new Set([...sources, ...tools])]), null, 1));
}
