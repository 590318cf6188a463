/** The compiled kernels, each made where it is not that of the sources as they are. They are not kept in the repository. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type KernelPlace, kernels, made, staleSources, sumsWithTools } from './sources.ts';

export async function buildKernels(): Promise<void> {
  for (const kernel of kernels) if (staleSources(kernel).length > 0) await buildKernel(kernel);
}

async function buildKernel({ entry, folder }: KernelPlace): Promise<void> {
  // Loading the compilers takes longer than all the rest of a build.
  const { compileKernel } = await import('./compile.ts');
  const { bytes, layouts, sources } = await compileKernel(entry);
  const text = `/** A compiled kernel and the layout of its structures, made by \`npm run build\`. */
export const kernelBase64: string = '${Buffer.from(bytes).toString('base64')}';

export const kernelLayouts: Readonly<Record<string, readonly (readonly [name: string, type: string])[]>> = ${JSON.stringify(layouts)};
`;
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, made.module), text);
  writeFileSync(join(folder, made.sources), JSON.stringify(sumsWithTools(sources), null, 1));
}
