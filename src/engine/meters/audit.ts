/**
 * The energy audit: every joule in, to the load, lost or stored, device by device, from the books that each kind keeps.
 * The network closes to rounding; what stays open is the error of the parts that are not linear. A closed audit does not
 * prove accuracy.
 */

import type { Ends } from '../../devices/ends.ts';
import { type AllBooks, booksOf } from '../../network/kinds.ts';
import type { Network } from '../../network/network.ts';
import type { Gauge } from '../gauge.ts';
import type { Audit, EnergyRow } from '../result.ts';

const unopened: Audit = {
  rows: [],
  input_J: 0,
  load_J: 0,
  loss_J: 0,
  stored_J: 0,
  residual_ratio: 0,
  residual_loss_ratio: 0,
};

export class AuditMeter {
  private readonly books: AllBooks;
  /** Energy that left the books with parts taken out or shorted, by owner [J]. */
  private readonly gone: Map<string, number> = new Map();
  private readonly stored0: Map<string, number> = new Map();
  private begun = false;

  constructor(network: Network, gauge: Gauge) {
    this.books = booksOf(network, gauge.shown);
  }

  /** A part of `owner` leaves with this much energy in it, or burns it in itself [J]. */
  remove(owner: string, energy_J: number): void {
    this.gone.set(owner, (this.gone.get(owner) ?? 0) + energy_J);
  }

  /** Begins the books; what left before does not count. */
  start(x: Float64Array, v: Float64Array): void {
    this.begun = true;
    this.gone.clear();
    this.resume(x, v);
    for (const books of this.books) books.start(x);
    this.stored(x, (store, energy_J) => this.stored0.set(store, energy_J));
  }

  /** Something has jumped: what the next step starts from is read anew. */
  resume(x: Float64Array, v: Float64Array): void {
    for (const books of this.books) books.resume(x, v);
  }

  /** Takes a step that weighs its start by p and its end by q [s]; `shown`: every channel at its end. */
  take(p: number, q: number, ends: Ends, shown: Float64Array): void {
    for (const books of this.books) books.take(p, q, ends, shown);
  }

  private stored(x: Float64Array, put: (store: string, energy_J: number) => void): void {
    for (const books of this.books) books.stored(x, put);
  }

  private rows(x: Float64Array): readonly EnergyRow[] {
    const accounts = this.books.flatMap((books) => books.accounts(x));
    const of = (wanted: EnergyRow['kind']): EnergyRow[] =>
      accounts
        .filter(({ kind }) => kind === wanted)
        .flatMap(({ kind, cause, owners, energy_J }) =>
          owners.map((owner, k) => ({ owner, cause, kind, energy_J: energy_J[k]! })),
        );
    const gone = [...this.gone].map(
      ([owner, energy_J]): EnergyRow => ({ owner, cause: 'taken out', kind: 'loss', energy_J }),
    );
    const changes: EnergyRow[] = [];
    this.stored(x, (owner, energy_J) => {
      const change_J = energy_J - this.stored0.get(owner)!;
      changes.push({ owner, cause: 'change', kind: 'stored', energy_J: change_J });
    });
    return [...of('input'), ...of('load'), ...of('loss'), ...gone, ...changes];
  }

  /** The books at the states x; empty, and closed, where the run ended before they were begun. */
  reading(x: Float64Array): Audit {
    if (!this.begun) return unopened;
    const rows = this.rows(x);
    const sum = (kind: EnergyRow['kind']): number =>
      rows.reduce((total, row) => (row.kind === kind ? total + row.energy_J : total), 0);
    const input = sum('input');
    const load = sum('load');
    const loss = sum('loss');
    const stored = sum('stored');
    const residual = input - load - loss - stored;
    // A short burns what was stored: then the losses are what went through.
    const throughput = Math.max(Math.abs(input), Math.abs(load), Math.abs(loss), Number.MIN_VALUE);
    return {
      rows,
      input_J: input,
      load_J: load,
      loss_J: loss,
      stored_J: stored,
      residual_ratio: residual / throughput,
      residual_loss_ratio: residual / Math.max(Math.abs(loss), Number.MIN_VALUE),
    };
  }
}
