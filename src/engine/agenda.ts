/** What is due at which tick: events, samples, tasks. Steps end on its ticks; across one only where it may be passed (`leap.ts`). */

interface Item {
  next: number;
  /** Ticks between two runs; 0 for once. */
  readonly period: number;
  readonly run: (tick: number) => void;
  readonly isQuiet: boolean;
  readonly isPassable: boolean;
}

export class Agenda {
  private items: Item[] = [];
  /** Earliest tick at which something is due. */
  next = Number.POSITIVE_INFINITY;
  /** The same of what no step may pass. */
  firm = Number.POSITIVE_INFINITY;

  /** At one tick, items run in the order in which they were added; a quiet one does nothing that watchers wait for, a passable one may be passed. */
  add(first: number, period: number, run: (tick: number) => void, isQuiet = false, isPassable = false): void {
    this.items.push({ next: first, period, run, isQuiet, isPassable });
    if (first < this.next) this.next = first;
    if (first < this.firm && !isPassable) this.firm = first;
  }

  /** Runs what is due at `tick`; whether all of it was quiet. */
  runDue(tick: number): boolean {
    let next = Number.POSITIVE_INFINITY;
    let firm = Number.POSITIVE_INFINITY;
    let spent = false;
    let isQuiet = true;
    for (const item of this.items) {
      if (item.next === tick) {
        item.run(tick);
        if (!item.isQuiet) isQuiet = false;
        item.next = item.period > 0 ? tick + item.period : Number.POSITIVE_INFINITY;
        if (item.period === 0) spent = true;
      }
      if (item.next < next) next = item.next;
      if (item.next < firm && !item.isPassable) firm = item.next;
    }
    if (spent) this.items = this.items.filter((item) => item.next !== Number.POSITIVE_INFINITY);
    this.next = next;
    this.firm = firm;
    return isQuiet;
  }

  /** What was due at `tick`, all of it passable, has been done by a step that passed it. */
  pass(tick: number): void {
    let next = this.firm;
    for (const item of this.items) {
      if (item.isPassable && item.next === tick) item.next += item.period;
      if (item.next < next) next = item.next;
    }
    this.next = next;
  }
}
