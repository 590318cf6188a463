// A thread does not inherit the TypeScript loader: register it, then run.
import { register } from 'tsx/esm/api';

register();
await import('./run-thread.ts');
