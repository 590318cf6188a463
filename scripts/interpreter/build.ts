/** The interpreter for controllers of the user's own: metered, with a loader that loads at once. It is not kept in the repository. */
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { sumsOf } from '../file-sums.ts';
import { loadingAtOnce } from './glue.ts';

const folder = 'src/firmware/user/made';
const from = 'node_modules/@jitl/quickjs-wasmfile-release-sync/dist';
const files = { module: 'interpreter.js', types: 'interpreter.d.ts', sums: 'sources.json' } as const;

const types = `import type { QuickJSEmscriptenModule } from 'quickjs-emscripten-core';
/** Loads the interpreter; \`instantiateWasm\` gives the instance of its module for the imports that it is handed. */
export function loaded(options: {
  readonly wasmMemory: object;
  readonly instantiateWasm: (imports: object) => object;
  readonly print: () => void;
  readonly printErr: () => void;
}): QuickJSEmscriptenModule;
/** The metered interpreter, as text. */
export function interpreterBase64(): string;
`;

export async function buildInterpreter(): Promise<void> {
  const tools = readdirSync('scripts/interpreter').map((name) => `scripts/interpreter/${name}`);
  const now = JSON.stringify(sumsOf(['package-lock.json', ...tools]), null, 1);
  const kept = join(folder, files.sums);
  const isThere = Object.values(files).every((file) => existsSync(join(folder, file)));
  if (isThere && readFileSync(kept, 'utf8') === now) return;
  const { metered } = await import('./metered.ts');
  const bytes = metered(readFileSync(join(from, 'emscripten-module.wasm')));
  const loader = loadingAtOnce(readFileSync(join(from, 'emscripten-module.browser.mjs'), 'utf8'));
  mkdirSync(folder, { recursive: true });
  writeFileSync(
    join(folder, files.module),
    `/** Made by \`npm run build\` (scripts/interpreter). */\n${loader}\nexport const interpreterBase64 = () => '${Buffer.from(bytes).toString('base64')}';\n`,
  );
  writeFileSync(join(folder, files.types), types);
  writeFileSync(kept, now);
}
