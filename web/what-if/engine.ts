/** The engine in a worker that the page makes of the text it carries: asked one thing at a time, started when first asked. */
import { BadInput } from '../../src/base/problem.ts';
import type { Provenance } from '../../src/bundle/format.ts';
import { type PageEngine, pageEngineName } from '../../src/bundle/page-contents.ts';
import { carried, unzipped } from '../carried.ts';
import type { Offer } from './engine/offer.ts';
import type { Kept, Order, OrderKind, Orders, Reply } from './engine/order.ts';

/** Thrown where a run was stopped by its user. */
export class Cancelled extends Error {}

type Told = (fraction: number) => void;

interface Opened {
  readonly worker: Worker;
  readonly offer: Offer;
}

export class Engine {
  readonly #provenance: Provenance;
  #script: Promise<string> | null = null;
  #opened: Promise<Opened> | null = null;
  #stop: (() => void) | null = null;
  /** Settles when the worker is free again. */
  #free: Promise<unknown> = Promise.resolve();

  constructor(provenance: Provenance) {
    this.#provenance = provenance;
  }

  /** What of the run may be changed. Throws BadInput where the engine refuses the run as it is. */
  async offer(): Promise<Offer> {
    return (await this.#ready()).offer;
  }

  /** The kept run was made by the sources that the page's engine is made of. */
  async isOfThisBuild(): Promise<boolean> {
    return (await pageEngine()).source_sha256 === this.#provenance.build.source_sha256;
  }

  /** Throws BadInput where the engine refuses, Cancelled where `cancel` came first. */
  async ask<K extends Exclude<OrderKind, 'open'>>(
    kind: K,
    ask: Orders[K]['ask'],
    told: Told = () => {},
  ): Promise<Orders[K]['answer']> {
    const answer = this.#free.then(async () => {
      const { worker } = await this.#ready();
      return this.#asked(worker, kind, ask, told);
    });
    this.#free = answer.catch(() => {});
    return answer;
  }

  /** Ends what runs; what is asked next starts a new worker. */
  cancel(): void {
    this.#stop?.();
  }

  async #ready(): Promise<Opened> {
    this.#opened ??= this.#open();
    try {
      return await this.#opened;
    } catch (error) {
      this.#opened = null;
      throw error;
    }
  }

  async #open(): Promise<Opened> {
    this.#script ??= carried('engine.js').then((bytes) =>
      URL.createObjectURL(new Blob([bytes], { type: 'text/javascript' })),
    );
    const worker = new Worker(await this.#script);
    return { worker, offer: await this.#asked(worker, 'open', await keptOf(this.#provenance), () => {}) };
  }

  #asked<K extends OrderKind>(
    worker: Worker,
    kind: K,
    ask: Orders[K]['ask'],
    told: Told,
  ): Promise<Orders[K]['answer']> {
    return new Promise((resolve, reject) => {
      const end = (): void => {
        this.#stop = null;
        worker.onmessage = null;
        worker.onerror = null;
      };
      this.#stop = () => {
        end();
        worker.terminate();
        this.#opened = null;
        reject(new Cancelled());
      };
      worker.onmessage = ({ data }: MessageEvent<Reply>) => {
        if (data.kind === 'progress') return told(data.fraction);
        end();
        // An answer is of the kind that was asked for: the worker answers in order.
        if (data.kind === 'done') resolve(data.answer as Orders[K]['answer']);
        else reject(data.kind === 'problems' ? new BadInput(data.problems) : new Error(data.text));
      };
      worker.onerror = ({ message }) => {
        end();
        reject(new Error(message));
      };
      worker.postMessage({ kind, ask } as Order);
    });
  }
}

/** The inputs as they were read, and the limits that came with the tool. */
async function keptOf({ request, inputs }: Provenance): Promise<Kept> {
  const read = inputs.map(async ({ path, sha256, gzip, content }) => ({
    path,
    sha256,
    bytes: gzip ? await unzipped(new Uint8Array(content)) : content,
  }));
  const { shippedLimits } = await pageEngine();
  return { request, inputs: await Promise.all(read), shippedLimits };
}

async function pageEngine(): Promise<PageEngine> {
  return JSON.parse(new TextDecoder().decode(await carried(pageEngineName)));
}
