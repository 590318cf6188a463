/** A kernel compiled: the functions of a module → AssemblyScript → WebAssembly, with the layout of its structures. */
import asc from 'assemblyscript/asc';
import { type Layout, translate } from './translate.ts';

const flags = [
  '-O3',
  '--enable',
  'simd',
  '--noAssert',
  '--runtime',
  'stub',
  '--importMemory',
  '--use',
  'abort=',
];

export interface CompiledKernel {
  readonly bytes: Uint8Array;
  readonly layouts: Readonly<Record<string, Layout>>;
  /** Files that any of it stands in. */
  readonly sources: readonly string[];
}

export async function compileKernel(entry: string): Promise<CompiledKernel> {
  const { text, layouts, sources } = translate(entry);
  let bytes: Uint8Array | null = null;
  const { error, stderr } = await asc.main(['kernel.ts', '--outFile', 'kernel.wasm', ...flags], {
    readFile: (name) => (name === 'kernel.ts' ? text : null),
    writeFile: (_, contents) => {
      bytes = contents as Uint8Array;
    },
    listFiles: () => [],
  });
  if (error !== null) throw new Error(`${error.message}\n${stderr.toString()}`);
  if (bytes === null) throw new Error('the compiler wrote nothing');
  return { bytes, layouts, sources };
}
