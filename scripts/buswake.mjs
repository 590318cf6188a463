#!/usr/bin/env node
// The installed command.
import { load } from '../src/compiled.mjs';

await load('cli/buswake.ts');
