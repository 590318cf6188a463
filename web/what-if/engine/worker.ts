/** The worker of the page: the engine as the command line has it, over what the page carries. */
import { BadInput } from '../../../src/base/problem.ts';
import type { Result } from '../../../src/engine/result.ts';
import { KeptRun } from './kept-run.ts';
import { offerOf } from './offer.ts';
import type { Order, OrderKind, Orders, Ran, Reply } from './order.ts';

const progressEvery_ms = 40;

let kept: KeptRun | null = null;

function answer(order: Order): Orders[OrderKind]['answer'] {
  if (order.kind === 'open') {
    kept = new KeptRun(order.ask);
    return offerOf(kept.read);
  }
  if (kept === null) throw new RangeError('the worker is asked before it is opened');
  switch (order.kind) {
    case 'lever':
      return kept.lever(order.ask);
    case 'run':
      return timed(kept, order.ask);
    case 'write':
      return kept.write(order.ask);
    default:
      return order satisfies never;
  }
}

function timed(run: KeptRun, changes: Orders['run']['ask']): Ran {
  const start_ms = performance.now();
  let told_ms = start_ms;
  const ran = run.run(changes, (fraction) => {
    const now_ms = performance.now();
    if (now_ms - told_ms < progressEvery_ms) return;
    told_ms = now_ms;
    tell({ kind: 'progress', fraction });
  });
  return { ...ran, wall_s: (performance.now() - start_ms) / 1000 };
}

function replyTo(order: Order): Reply {
  try {
    return { kind: 'done', answer: answer(order) };
  } catch (error) {
    if (error instanceof BadInput) return { kind: 'problems', problems: error.problems };
    return { kind: 'bug', text: error instanceof Error ? error.message : String(error) };
  }
}

function tell(reply: Reply, moved: ArrayBuffer[] = []): void {
  postMessage(reply, { transfer: moved });
}

/** The long columns of a result are handed over, not copied. */
function longColumns({ streams, means, recording }: Result): ArrayBuffer[] {
  const columns = [
    ...streams.map(({ samples }) => samples),
    ...means.columns.values(),
    ...recording.min,
    ...recording.max,
  ];
  return [...new Set(columns.map(({ buffer }) => buffer as ArrayBuffer))];
}

addEventListener('message', ({ data }: MessageEvent<Order>) => {
  const reply = replyTo(data);
  const ran = reply.kind === 'done' && data.kind === 'run' ? (reply.answer as Ran) : null;
  tell(reply, ran === null ? [] : longColumns(ran.result));
  if (data.kind === 'open') kept?.rehearse();
});
