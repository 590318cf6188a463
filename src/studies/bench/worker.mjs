// A thread of the pool. It does not inherit how TypeScript is run.
import { load } from '../../compiled.mjs';

export const { work } = await load('studies/bench/work.ts');
