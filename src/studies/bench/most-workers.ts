import { availableParallelism } from 'node:os';

/** Threads of a study: each has memory of its own, about 25 MB, and beyond the cores none makes it quicker. */
export const mostWorkers = Math.max(16, 2 * availableParallelism());
