#!/usr/bin/env node
// The installed command: registers the TypeScript loader, then runs the command line.
import { register } from 'tsx/esm/api';

register();
await import('../src/cli/buswake.ts');
