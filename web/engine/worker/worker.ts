/** The worker of the page: the engine as the command line has it, over what the page carries. */
import { BadInput } from '../../../src/base/problem.ts';
import { KeptSource } from '../../../src/bundle/kept-source.ts';
import { longColumns } from '../../../src/engine/long-columns.ts';
import { runWhole } from '../../../src/studies/bench/run-whole.ts';
import { Shelf } from '../../../src/studies/bench/shelf.ts';
import { KeptRun } from './kept-run.ts';
import { offerOf } from './offer.ts';
import type { Order, OrderKind, Orders, Reply, Timed } from './order.ts';

const progressEvery_ms = 40;

let kept: KeptRun | null = null;
let study: Shelf | null = null;

function answer(order: Order): Orders[OrderKind]['answer'] {
  switch (order.kind) {
    case 'open':
      kept = new KeptRun(order.ask);
      return offerOf(kept.read);
    case 'lever':
      return opened(kept).lever(order.ask);
    case 'run':
      return timed((onProgress) => opened(kept).run(order.ask, onProgress));
    case 'write':
      return opened(kept).write(order.ask);
    case 'study':
      study = new Shelf(new KeptSource(order.ask.inputs));
      return null;
    case 'trial':
      return timed((onProgress) => runWhole(opened(study), order.ask, { onProgress }));
    default:
      return order satisfies never;
  }
}

function opened<T>(what: T | null): T {
  if (what === null) throw new RangeError('the worker is asked before it is opened');
  return what;
}

function timed<T extends object>(work: (onProgress: (fraction: number) => void) => T): T & Timed {
  const start_ms = performance.now();
  let told_ms = start_ms;
  const done = work((fraction) => {
    const now_ms = performance.now();
    if (now_ms - told_ms < progressEvery_ms) return;
    told_ms = now_ms;
    tell({ kind: 'progress', fraction });
  });
  return { ...done, wall_s: (performance.now() - start_ms) / 1000 };
}

function replyTo(order: Order): Reply {
  try {
    return { kind: 'done', answer: answer(order) };
  } catch (error) {
    if (error instanceof BadInput) return { kind: 'problems', problems: error.problems };
    return { kind: 'bug', text: error instanceof Error ? error.message : String(error) };
  }
}

/** What of an answer is handed over instead of copied. */
function movedOf(reply: Reply): ArrayBuffer[] {
  if (reply.kind !== 'done' || typeof reply.answer !== 'object' || reply.answer === null) return [];
  if ('result' in reply.answer) return longColumns(reply.answer.result);
  return 'ran' in reply.answer && reply.answer.ran !== null ? longColumns(reply.answer.ran.result) : [];
}

function tell(reply: Reply): void {
  postMessage(reply, { transfer: movedOf(reply) });
}

addEventListener('message', ({ data }: MessageEvent<Order>) => {
  tell(replyTo(data));
  if (data.kind === 'open') kept?.rehearse();
});
