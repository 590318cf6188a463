/** Runs a scenario on its own thread; Ctrl-C asks it to stop, a second one ends the process. */
import { Worker } from 'node:worker_threads';
import type { Report } from '../../analysis/judge/report.ts';
import { BadInput } from '../../base/problem.ts';
import type { Result } from '../../engine/result.ts';
import { built } from '../../home.ts';
import type { RecordedLoad } from '../../loads/recorded/recorded-load.ts';
import type { Scenario } from '../../scenario/scenario.ts';
import { exit } from '../exit.ts';
import type { RunMessage, RunOrder } from './run-protocol.ts';

export interface Ran {
  readonly report: Report;
  readonly result: Result;
  /** Rows of waveforms that were written. */
  readonly rows: number;
}

/** The judged run with its wall time. Bad input and mistakes of the engine are thrown as on one thread. */
export async function runApart(
  scenario: Scenario,
  recorded: RecordedLoad | null,
  doubt: boolean,
  onProgress: (fraction: number) => void,
  measured?: RunOrder['measured'],
  waveforms?: RunOrder['waveforms'],
): Promise<Ran> {
  const stop = new SharedArrayBuffer(4);
  // A run plays the total alone. Its columns move to the thread: two copies of a long recording are one too many.
  const total = recorded === null ? null : { ...recorded, channels: [] };
  const order: RunOrder = { scenario, recorded: total, doubt, measured, waveforms, stop };
  const worker = new Worker(built('cli/apart/run-thread.ts'), {
    workerData: order,
    transferList:
      total === null
        ? []
        : [total.total.time_s.buffer as ArrayBuffer, total.total.power_W.buffer as ArrayBuffer],
  });
  const interrupt = (): void => {
    if (Atomics.exchange(new Int32Array(stop), 0, 1) === 0) {
      process.stderr.write('\nStopping. Nothing is written. Press Ctrl-C again to leave at once.\n');
    } else {
      process.exit(exit.stopped);
    }
  };
  process.on('SIGINT', interrupt);
  try {
    return await new Promise<Ran>((resolve, reject) => {
      worker.on('error', reject);
      worker.on('exit', () => reject(new Error('the engine ended without a result')));
      worker.on('message', (message: RunMessage) => {
        switch (message.kind) {
          case 'progress':
            return onProgress(message.fraction);
          case 'problems':
            return reject(new BadInput(message.problems));
          case 'bug':
            return reject(Object.assign(new Error('the engine broke'), { stack: message.text }));
          case 'done':
            return resolve({
              report: timed(message.report, simulated(scenario, message.result), message.wall_s),
              result: message.result,
              rows: message.rows,
            });
        }
      });
    });
  } finally {
    process.off('SIGINT', interrupt);
  }
}

/** A run that ended early has simulated up to there; what settled before it is not counted. */
function simulated(scenario: Scenario, result: Result): number {
  const ended = result.failure === null && result.status !== 'stopped';
  return ended ? scenario.duration_s : result.window.to_s;
}

/** Only the outside knows how long it took. */
function timed(report: Report, simulated_s: number, wall_s: number): Report {
  const realtime_ratio = wall_s > 0 ? simulated_s / wall_s : null;
  return { ...report, engine: { ...report.engine, wall_s, realtime_ratio } };
}
