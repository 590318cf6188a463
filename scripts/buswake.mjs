#!/usr/bin/env node
// The installed command, as `npm run build` has made it: with the code that is kept for this Node, else from its modules, which
// know the lines of their sources.
import { existsSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';

const dist = new URL('../dist/', import.meta.url);
const kept = fileURLToPath(new URL(`kept-code/${process.version}-${process.arch}/load.cjs`, dist));
const built = new URL('cli/buswake.js', dist);
const debugs = process.argv.includes('--debug');
if (existsSync(kept) && !debugs) {
  const { load, patiently } = createRequire(import.meta.url)(kept);
  patiently();
  load('command');
} else if (existsSync(fileURLToPath(built))) {
  if (debugs) process.setSourceMapsEnabled(true);
  await import(built);
} else {
  process.stderr.write(
    'buswake is not built here: run npm ci (or npm run build where that was done) in its folder.\n',
  );
  process.exitCode = 1;
}
