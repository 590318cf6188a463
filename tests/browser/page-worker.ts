/** The engine that a page carries, asked by a test in a worker of the page's own. */
import type { Page } from 'playwright-core';
import type { Change } from '../../src/scenario/scenario.ts';
import type { Kept, Order, Ran, Reply } from '../../web/what-if/engine/order.ts';
import { digest } from './digest.ts';

/** What the page's own worker answers, order by order; of runs the digest, worked out in the page. */
export async function answers(
  page: Page,
  asked: Kept,
  trials: readonly (readonly Change[])[],
): Promise<readonly unknown[]> {
  const inputs = asked.inputs.map((input) => ({ ...input, bytes: [...input.bytes] }));
  // As text for the debugger: the page's policy evaluates none.
  await page.evaluate(`globalThis.digest = ${digest}`);
  return page.evaluate(
    async ({ asked, inputs, trials }) => {
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
      const opened = await replyTo({ kind: 'open', ask: { ...asked, inputs: read } });
      if (opened.kind !== 'done') return [opened];
      const words: unknown[] = [];
      for (const changes of trials) {
        const reply = await replyTo({ kind: 'run', ask: changes });
        if (reply.kind !== 'done') return [reply];
        const { report, result, scenario } = reply.answer as Ran;
        words.push({ ...told({ report, result, scenario }), status: report.status });
      }
      worker.terminate();
      return words;
    },
    { asked: { ...asked, inputs: [] }, inputs, trials },
  );
}
