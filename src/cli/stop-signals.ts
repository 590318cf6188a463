/**
 * What asks a command to stop, to be heeded alike: Ctrl-C, `kill`, and the end of the terminal. A command that ends of itself
 * leaves nothing half-written.
 */
const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;

/** Calls `heed` at each of them, until what is given back is called. */
export function onStop(heed: () => void): () => void {
  for (const signal of signals) process.on(signal, heed);
  return () => {
    for (const signal of signals) process.off(signal, heed);
  };
}
