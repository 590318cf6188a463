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

/** Does what takes a moment and is not to be left half-way: who asks to stop meanwhile finds it done. */
export function uninterrupted(work: () => void): void {
  const heedNoMore = onStop(() => {});
  try {
    work();
  } finally {
    heedNoMore();
  }
}
