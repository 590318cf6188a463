// A thread of the pool. It does not inherit the TypeScript loader: register it, then load what works.
import { register } from 'tsx/esm/api';

register();
export const { work } = await import('./strip.ts');
