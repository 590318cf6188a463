/** The compiled kernel beside its loader, made where it is not that of the sources as they are. It is not kept in the repository. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { compileKernel } from './compile.ts';
import { made, staleSources, sumsOf } from './sources.ts';

export async function buildKernel(): Promise<void> {
  if (staleSources().length === 0) return;
  const { bytes, layouts, sources } = await compileKernel();
  const text = `/** The compiled kernel and the layout of its structures, made by \`npm run build\`. */
import type { Layouts } from '../shared-memory.ts';

export const kernelBase64: string = '${Buffer.from(bytes).toString('base64')}';

export const kernelLayouts: Layouts = ${JSON.stringify(layouts)};
`;
  mkdirSync(made.folder, { recursive: true });
  writeFileSync(join(made.folder, made.module), text);
  writeFileSync(join(made.folder, made.sources), JSON.stringify(sumsOf(sources), null, 1));
}
