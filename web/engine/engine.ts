/** The engine in a worker that the page makes of the text it carries: asked one thing at a time, started when first asked. */
import { BadInput } from '../../src/base/problem.ts';
import { engineName } from '../../src/bundle/page-contents.ts';
import { carried } from '../carried.ts';
import type { OpeningKind, Order, OrderKind, Orders, Reply } from './worker/order.ts';

/** Thrown where a run was stopped by its user. */
export class Cancelled extends Error {}

type Told = (fraction: number) => void;

interface Opened<O extends OpeningKind> {
  readonly worker: Worker;
  readonly answer: Orders[O]['answer'];
}

export class Engine<O extends OpeningKind> {
  readonly #opening: O;
  readonly #with: () => Promise<Orders[O]['ask']>;
  #script: Promise<string> | null = null;
  #opened: Promise<Opened<O>> | null = null;
  #stop: (() => void) | null = null;
  /** Settles when the worker is free again. */
  #free: Promise<unknown> = Promise.resolve();

  /** `opening`: what each worker is opened with, asked for when one is started. */
  constructor(kind: O, opening: () => Promise<Orders[O]['ask']>) {
    this.#opening = kind;
    this.#with = opening;
  }

  /** What the worker answers when it is opened. Throws BadInput where it refuses what the page carries. */
  async opened(): Promise<Orders[O]['answer']> {
    return (await this.#ready()).answer;
  }

  /** Throws BadInput where the engine refuses, Cancelled where `cancel` came first. */
  async ask<K extends Exclude<OrderKind, OpeningKind>>(
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

  async #ready(): Promise<Opened<O>> {
    this.#opened ??= this.#open();
    try {
      return await this.#opened;
    } catch (error) {
      this.#opened = null;
      throw error;
    }
  }

  async #open(): Promise<Opened<O>> {
    this.#script ??= carried(engineName).then((bytes) =>
      URL.createObjectURL(new Blob([bytes], { type: 'text/javascript' })),
    );
    const worker = new Worker(await this.#script);
    return { worker, answer: await this.#asked(worker, this.#opening, await this.#with(), () => {}) };
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
