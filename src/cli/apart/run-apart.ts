/**
 * The engine on a thread of its own, so that the command hears Ctrl-C and draws progress while it works. The thread is
 * started before the inputs are read: on another core it loads its modules meanwhile.
 */
import { Worker } from 'node:worker_threads';
import type { Report } from '../../analysis/judge/report.ts';
import { BadInput } from '../../base/problem.ts';
import { onStop } from '../../disk/stop-signals.ts';
import type { Result } from '../../engine/result.ts';
import { startOf } from '../../home.ts';
import type { Scenario } from '../../scenario/scenario.ts';
import { exit } from '../exit.ts';
import type { RunMessage, RunOrder } from './run-protocol.ts';

/** What a run comes to. */
export interface Judged {
  readonly report: Report;
  /** Rows of waveforms that were written. */
  readonly rows: number;
}

export interface Ran extends Judged {
  readonly result: Result;
}

/** What is asked of a run's thread. */
type Order = Omit<RunOrder, 'wantsResult'>;

/** A thread that has ended its run well waits for the next one of this process, which it does not keep alive. */
let waiting: RunThread | null = null;

/** Starts the thread that the next run will have: while its command is still loaded, and before its words are looked at. */
export function startThread(): void {
  waiting ??= new RunThread();
  waiting.rests();
}

/** Does `work`, which reads inputs and then runs, with a thread that has been started before. */
export async function withThread<T>(work: (thread: RunThread) => Promise<T>): Promise<T> {
  const thread = waiting ?? new RunThread();
  waiting = null;
  try {
    const done = await work(thread);
    if (thread.rests()) waiting = thread;
    return done;
  } finally {
    if (waiting !== thread) thread.end();
  }
}

/** Room for new objects, a quarter of what V8 would give: of an hour's judgement hardly any of them outlives a collection. */
const resourceLimits = { maxYoungGenerationSizeMb: 12 };

export class RunThread {
  private readonly stop = new SharedArrayBuffer(4);
  private readonly worker = new Worker(startOf('cli/apart/run-thread.ts'), {
    workerData: this.stop,
    resourceLimits,
  });

  /**
   * The judged run with its wall time; Ctrl-C asks it to stop, a second one ends the process. Bad input and mistakes of
   * the engine are thrown as on one thread.
   */
  judge(order: Order, onProgress: (fraction: number) => void): Promise<Judged> {
    return this.carryOut({ ...order, wantsResult: false }, onProgress);
  }

  /** The same with its result. */
  async run(order: Order, onProgress: (fraction: number) => void): Promise<Ran> {
    const { result, ...judged } = await this.carryOut({ ...order, wantsResult: true }, onProgress);
    if (result === null) throw new Error('the engine kept its result');
    return { ...judged, result };
  }

  private async carryOut(
    order: RunOrder,
    onProgress: (fraction: number) => void,
  ): Promise<Judged & { readonly result: Result | null }> {
    const { worker } = this;
    const { scenario, recorded } = order;
    // A run plays the total alone. Its columns move to the thread: two copies of a long recording are one too many.
    const total = recorded === null ? null : { ...recorded, channels: [] };
    const columns =
      total === null
        ? []
        : [total.total.time_s.buffer as ArrayBuffer, total.total.power_W.buffer as ArrayBuffer];
    const heedNoMore = onStop(this.interrupt);
    worker.ref();
    try {
      return await new Promise((resolve, reject) => {
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
              if (this.isAskedToStop && message.report.status !== 'stopped')
                process.stderr.write('It had come to its end before that: this is what it found.\n');
              return resolve({
                report: timed(message.report, simulated(scenario, message.report), message.wall_s),
                result: message.result,
                rows: message.rows,
              });
          }
        });
        worker.postMessage({ ...order, recorded: total } satisfies RunOrder, columns);
      });
    } finally {
      heedNoMore();
      for (const heard of ['error', 'exit', 'message']) worker.removeAllListeners(heard);
    }
  }

  /** It may be given another run: nobody has asked it to stop. From here on it keeps no process alive. */
  rests(): boolean {
    this.worker.unref();
    return !this.isAskedToStop;
  }

  end(): void {
    void this.worker.terminate();
  }

  private get isAskedToStop(): boolean {
    return Atomics.load(new Int32Array(this.stop), 0) === 1;
  }

  private readonly interrupt = (): void => {
    if (Atomics.exchange(new Int32Array(this.stop), 0, 1) === 0) {
      process.stderr.write('\nStopping. Press Ctrl-C again to leave at once.\n');
    } else {
      process.exit(exit.stopped);
    }
  };
}

/** A run that ended early has simulated up to there; what settled before it is not counted. */
function simulated(scenario: Scenario, { failure, status, window_s }: Report): number {
  return failure === null && status !== 'stopped' ? scenario.duration_s : window_s.to;
}

/** Only the outside knows how long it took. */
function timed(report: Report, simulated_s: number, wall_s: number): Report {
  const realtime_ratio = wall_s > 0 ? simulated_s / wall_s : null;
  return { ...report, engine: { ...report.engine, wall_s, realtime_ratio } };
}
