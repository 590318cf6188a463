/** Builds the compiled kernel beside its loader: `npm run kernel`. The file is made, not kept in the repository. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { compileKernel } from './kernel/compile.ts';

const out = 'src/engine/fast/made/kernel.ts';

const { bytes, layouts } = await compileKernel();
const base64 = Buffer.from(bytes).toString('base64');
mkdirSync(dirname(out), { recursive: true });
writeFileSync(
  out,
  `/** The compiled kernel and the layout of its structures, made by \`npm run kernel\`. */
import type { Layouts } from '../shared-memory.ts';

export const kernelBase64: string = '${base64}';

export const kernelLayouts: Layouts = ${JSON.stringify(layouts)};
`,
);
process.stderr.write(`kernel: ${bytes.length} bytes\n`);
