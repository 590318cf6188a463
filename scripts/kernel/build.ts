/** The compiled kernels, each made where it is not that of the sources as they are. They are not kept in the repository. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { packed } from './linking/template.ts';
import { type KernelPlace, kernels, made, staleSources, sumsWithTools } from './sources.ts';

export async function buildKernels(): Promise<void> {
  for (const kernel of kernels) if (staleSources(kernel).length > 0) await buildKernel(kernel);
}

async function buildKernel({ entry, folder }: KernelPlace): Promise<void> {
  // Loading the compilers takes longer than all the rest of a build.
  const { compileKernel } = await import('./compile.ts');
  const { bytes, layouts, templates, sources } = await compileKernel(entry);
  const written = Object.entries(templates).map(([name, template]) => [
    name,
    { handed: template.handed, ...packed(template) },
  ]);
  const text = `/** A compiled kernel and the layout of its structures, made by \`npm run build\`. */
export const kernelBase64: string = '${Buffer.from(bytes).toString('base64')}';

export const kernelLayouts: Readonly<Record<string, readonly (readonly [name: string, type: string])[]>> = ${JSON.stringify(layouts)};
`;
  const linked = `/** Functions with gaps for what one cabinet's memory gives, and what fills them (\`engine/fast/template.ts\`). */
export const kernelTemplates: Readonly<
  Record<string, { readonly handed: readonly (string | null)[]; readonly bytes: string; readonly ledger: string }>
> = ${JSON.stringify(Object.fromEntries(written))};
`;
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, made.module), text);
  if (written.length > 0) writeFileSync(join(folder, made.templates), linked);
  writeFileSync(join(folder, made.sources), JSON.stringify(sumsWithTools(sources), null, 1));
}
