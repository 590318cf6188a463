/** A kernel compiled: the functions of a module → AssemblyScript → WebAssembly, with the layout of its structures. */
import asc from 'assemblyscript/asc';
import { folded } from './linking/folder.ts';
import { readModule } from './linking/module.ts';
import { Symbols } from './linking/symbols.ts';
import { type Template, templateOf } from './linking/template.ts';
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

/** `handed`: of each parameter the structure whose address it is; null for a number. */
export interface HandedTemplate extends Template {
  readonly handed: readonly (string | null)[];
}

export interface CompiledKernel {
  readonly bytes: Uint8Array;
  readonly layouts: Readonly<Record<string, Layout>>;
  /** The functions that are handed structures, each with gaps for what one cabinet's memory gives. */
  readonly templates: Readonly<Record<string, HandedTemplate>>;
  /** Files that any of it stands in. */
  readonly sources: readonly string[];
}

export async function compileKernel(entry: string): Promise<CompiledKernel> {
  const { text, layouts, handed, sources } = translate(entry);
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
  return { bytes, layouts, templates: templatesOf(bytes, layouts, handed), sources };
}

function templatesOf(
  bytes: Uint8Array,
  layouts: CompiledKernel['layouts'],
  handed: Readonly<Record<string, readonly string[]>>,
): CompiledKernel['templates'] {
  const module = readModule(bytes);
  const templates: Record<string, HandedTemplate> = {};
  for (const [name, types] of Object.entries(handed)) {
    const structures = types.map((type) => (type in layouts ? type : null));
    if (structures.every((structure) => structure === null)) continue;
    const symbols = new Symbols(layouts);
    const index = module.exported.get(name)!;
    const { signature } = module.functions[index]!;
    const function_ = folded(module, index, symbols, structures);
    templates[name] = {
      ...templateOf(name, signature, function_, symbols, module.imported),
      handed: structures,
    };
  }
  return templates;
}
