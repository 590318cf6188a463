/** Values that mean that nothing was read, and which of them the file holds. */
export class Sentinels {
  count = 0;
  private readonly stated: readonly number[];
  private readonly met = new Set<number>();

  constructor(stated: readonly number[]) {
    this.stated = stated;
  }

  /** Whether it is one of them. */
  states(value: number): boolean {
    return this.stated.includes(value);
  }

  /** Whether it is one of them; counted. */
  holds(value: number): boolean {
    if (!this.states(value)) return false;
    this.count++;
    this.met.add(value);
    return true;
  }

  /** A sentence where some of them stand nowhere: a sentinel with a typing error leaves its rows in. */
  unmet(): string[] {
    const unmet = this.stated.filter((value) => !this.met.has(value));
    if (unmet.length === 0) return [];
    return [`No value is ${unmet.join(' or ')}, which was stated to mean that nothing was read.`];
  }
}
