/** What is due at which tick: events, samples, tasks. Steps end on its ticks, never across one. */

interface Item {
  next: number;
  /** Ticks between two runs; 0 for once. */
  readonly period: number;
  readonly run: (tick: number) => void;
}

export class Agenda {
  private items: Item[] = [];
  /** Earliest tick at which something is due. */
  next = Number.POSITIVE_INFINITY;

  /** At one tick, items run in the order in which they were added. */
  add(first: number, period: number, run: (tick: number) => void): void {
    this.items.push({ next: first, period, run });
    if (first < this.next) this.next = first;
  }

  /** Runs what is due at `tick`. */
  runDue(tick: number): void {
    let next = Number.POSITIVE_INFINITY;
    let spent = false;
    for (const item of this.items) {
      if (item.next === tick) {
        item.run(tick);
        item.next = item.period > 0 ? tick + item.period : Number.POSITIVE_INFINITY;
        if (item.period === 0) spent = true;
      }
      if (item.next < next) next = item.next;
    }
    if (spent) this.items = this.items.filter((item) => item.next !== Number.POSITIVE_INFINITY);
    this.next = next;
  }
}
