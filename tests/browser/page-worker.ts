/** The engine that a page carries, asked by a test in a worker of the page's own. */
import type { Page } from 'playwright-core';
import type { OpeningKind, Order, Orders, Reply } from '../../web/engine/worker/order.ts';
import { digest } from './digest.ts';

/** What a worker is opened with. */
type Opening = Extract<Order, { readonly kind: OpeningKind }>;

/** What the page's own worker answers, order by order; of runs the digest, worked out in the page. */
export async function answers(
  page: Page,
  { kind, ask }: Opening,
  orders: readonly Order[],
): Promise<readonly unknown[]> {
  const inputs = ask.inputs.map((input) => ({ ...input, bytes: [...input.bytes] }));
  // As text for the debugger: the page's policy evaluates none.
  await page.evaluate(`globalThis.digest = ${digest}`);
  return page.evaluate(
    async ({ kind, ask, inputs, orders }) => {
      const packed = document.getElementById('file-engine.js')!.textContent!;
      const bytes = Uint8Array.from(atob(packed), (letter) => letter.charCodeAt(0));
      const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip'));
      const worker = new Worker(URL.createObjectURL(await new Response(stream).blob()));
      const replyTo = (order: Order): Promise<Reply> =>
        new Promise((resolve) => {
          worker.onmessage = ({ data }: MessageEvent<Reply>) => data.kind !== 'progress' && resolve(data);
          worker.postMessage(order);
        });
      const told = (globalThis as unknown as { digest: typeof digest }).digest;
      const read = inputs.map((input) => ({ ...input, bytes: Uint8Array.from(input.bytes) }));
      const opened = await replyTo({ kind, ask: { ...ask, inputs: read } } as Order);
      if (opened.kind !== 'done') return [opened];
      const words: unknown[] = [];
      for (const order of orders) {
        const reply = await replyTo(order);
        if (reply.kind !== 'done') return [reply];
        if (order.kind === 'trial') {
          const { outcome, ran } = reply.answer as Orders['trial']['answer'];
          words.push({ whole: told({ outcome, ran }), result: told(ran?.result) });
        } else {
          const { report, result, scenario } = reply.answer as Orders['run']['answer'];
          words.push({ ...told({ report, result, scenario }), status: report.status });
        }
      }
      worker.terminate();
      return words;
    },
    { kind, ask: { ...ask, inputs: [] }, inputs, orders },
  );
}
