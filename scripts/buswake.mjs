#!/usr/bin/env node
// The installed command, as `npm run build` has made it.
if (process.argv.includes('--debug')) process.setSourceMapsEnabled(true);
await import('../dist/cli/buswake.js');
