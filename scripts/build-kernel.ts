/** Compiles the fast kernel and keeps it as text beside its loader. Run by `npm run kernel`. */
import { readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import asc from 'assemblyscript/asc';

/** Compiles src/engine/fast/kernel/step.ts; returns the module's bytes in base64. */
export async function compileKernel(): Promise<string> {
  const out = join(tmpdir(), `kernel-${process.pid}.wasm`);
  const flags = ['-O3', '--noAssert', '--runtime', 'stub', '--importMemory', '--use', 'abort='];
  const { error, stderr } = await asc.main(['src/engine/fast/kernel/step.ts', '--outFile', out, ...flags]);
  if (error) throw new Error(`${error.message}\n${stderr?.toString() ?? ''}`);
  return readFileSync(out).toString('base64');
}

if (import.meta.url === `file://${process.argv[1]}`) {
  const base64 = await compileKernel();
  const lines = base64.match(/.{1,96}/g) ?? [];
  writeFileSync(
    'src/engine/fast/kernel-bytes.ts',
    `/** The compiled kernel, made from kernel/step.ts by \`npm run kernel\`. Not edited by hand. */\nexport const kernelBase64: string =\n${lines.map((line) => `  '${line}'`).join(' +\n')};\n`,
  );
  process.stderr.write(`kernel: ${Math.round((base64.length * 3) / 4)} bytes\n`);
}
