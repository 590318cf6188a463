#!/usr/bin/env node
// The installed command, as `npm run build` has made it.
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const built = new URL('../dist/cli/buswake.js', import.meta.url);
if (existsSync(fileURLToPath(built))) {
  if (process.argv.includes('--debug')) process.setSourceMapsEnabled(true);
  await import(built);
} else {
  process.stderr.write(
    'buswake is not built here: run npm ci (or npm run build where that was done) in its folder.\n',
  );
  process.exitCode = 1;
}
