// A thread does not inherit how TypeScript is run.
import { load } from '../compiled.mjs';

await load('cli/run-thread.ts');
