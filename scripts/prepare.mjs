// What npm runs after an installation in a checkout, and before it packs: builds what is run. Where the packages that build
// it are not there (`npm i -g .` in a fresh clone), it says what to do instead of ending in a stack.
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const builder = new URL('../node_modules/tsx/', import.meta.url);
if (existsSync(fileURLToPath(builder))) {
  await import('tsx');
  const { buildAll } = await import('./build.ts');
  await buildAll();
  // Types take a compile of the whole: a package has them, a checkout has the sources.
  if (process.env.npm_command === 'pack' || process.env.npm_command === 'publish') {
    const { writeTypes } = await import('./library.ts');
    await writeTypes('dist/library');
  }
} else {
  process.stderr.write(`buswake is built from this checkout, and the packages that build it are not installed.
  in the checkout:         npm ci, then npm run -s buswake -- --help
  as a command of yours:   npm ci, then npm i -g "$(npm pack --silent)"
`);
  process.exitCode = 1;
}
