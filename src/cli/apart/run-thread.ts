/**
 * What the command's second thread runs: an order that comes once the inputs are read, one after another. It is started with one
 * Int32 that both threads see; not zero asks the run to stop.
 */
import { parentPort, workerData } from 'node:worker_threads';
import { BadInput } from '../../base/problem.ts';
import { longColumns } from '../../engine/long-columns.ts';
import { run } from '../../run.ts';
import type { RunMessage, RunOrder } from './run-protocol.ts';

const progressEvery_ms = 100;

const stop = new Int32Array(workerData as SharedArrayBuffer);

async function work({
  scenario,
  recorded,
  doubt,
  measured,
  waveforms,
  wantsResult,
}: RunOrder): Promise<RunMessage> {
  const start_ms = performance.now();
  let told_ms = start_ms;
  try {
    // What writes files is loaded by who asks for files.
    const saver =
      waveforms === undefined
        ? null
        : new (await import('../../export/save-waveforms.ts')).WaveformSaver(waveforms);
    const { report, result } = run(scenario, recorded, {
      doubt,
      ...(measured === undefined ? {} : { measured }),
      waveforms: saver?.order,
      shouldStop: () => Atomics.load(stop, 0) !== 0,
      onProgress: (fraction) => {
        const now_ms = performance.now();
        if (now_ms - told_ms < progressEvery_ms) return;
        told_ms = now_ms;
        tell({ kind: 'progress', fraction });
      },
    });
    saver?.close();
    const rows = saver?.rows ?? 0;
    const wall_s = (performance.now() - start_ms) / 1000;
    return { kind: 'done', report, result: wantsResult ? result : null, rows, wall_s };
  } catch (error) {
    if (error instanceof BadInput) return { kind: 'problems', problems: error.problems };
    return { kind: 'bug', text: error instanceof Error ? (error.stack ?? error.message) : String(error) };
  }
}

function tell(message: RunMessage): void {
  const moved = message.kind === 'done' && message.result !== null ? longColumns(message.result) : [];
  parentPort!.postMessage(message, moved);
}

parentPort!.on('message', async (order: RunOrder) => tell(await work(order)));
