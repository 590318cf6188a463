/** What is due at which tick: events, samples, tasks. Steps end on its ticks, never across one. */

/** What has its turn. */
export interface Due {
  run(tick: number): void;
}

/** Nothing is done: a step ends there, and that is all. */
export const stepEnd: Due = { run: () => {} };

interface Item {
  next: number;
  /** Ticks between two runs; 0 for once. */
  readonly period: number;
  readonly due: Due;
  readonly isQuiet: boolean;
}

export class Agenda {
  private items: Item[] = [];
  /** Earliest tick at which something is due. */
  next = Number.POSITIVE_INFINITY;

  /** At one tick, items run in the order in which they were added; a quiet one does nothing that watchers wait for. */
  add(first: number, period: number, due: Due, isQuiet = false): void {
    this.items.push({ next: first, period, due, isQuiet });
    if (first < this.next) this.next = first;
  }

  /** Runs what is due at `tick`; whether all of it was quiet. */
  runDue(tick: number): boolean {
    let next = Number.POSITIVE_INFINITY;
    let spent = false;
    let isQuiet = true;
    for (const item of this.items) {
      if (item.next === tick) {
        item.due.run(tick);
        if (!item.isQuiet) isQuiet = false;
        item.next = item.period > 0 ? tick + item.period : Number.POSITIVE_INFINITY;
        if (item.period === 0) spent = true;
      }
      if (item.next < next) next = item.next;
    }
    if (spent) this.items = this.items.filter((item) => item.next !== Number.POSITIVE_INFINITY);
    this.next = next;
    return isQuiet;
  }
}
