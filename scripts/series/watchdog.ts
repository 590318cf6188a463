/**
 * A series that hangs says where, and ends: whoever runs one beats at each number. A thread of its own looks on, for the
 * one that hangs can look at nothing.
 */
import { Worker } from 'node:worker_threads';

/** Longest silence [s]; what merely takes too long is counted by the series itself. */
const longest_s = 60;

const watching = `
const { workerData: { beat, longest_s } } = require('node:worker_threads');
const { writeSync } = require('node:fs');
const shared = new Int32Array(beat);
for (;;) {
  const number = Atomics.load(shared, 0);
  if (Atomics.wait(shared, 0, number, 1000 * longest_s) !== 'timed-out') continue;
  writeSync(1, 'number ' + number + ' hangs: nothing for ' + longest_s + ' s\\n');
  process.kill(process.pid, 'SIGKILL');
}`;

/** Called with the number that is begun. Ends with the process. */
export function watchdog(silence_s: number = longest_s): (number: number) => void {
  const beat = new SharedArrayBuffer(4);
  const shared = new Int32Array(beat);
  new Worker(watching, { eval: true, execArgv: [], workerData: { beat, longest_s: silence_s } }).unref();
  return (number) => {
    Atomics.store(shared, 0, number);
    Atomics.notify(shared, 0);
  };
}
