/**
 * What is remembered of a channel's half swings in a row, however long the row: their sizes and times in at most
 * `mostBlocks` blocks of equally many half swings. When all are full, neighbours merge.
 */
export const mostBlocks = 64;

export class HalfSwings {
  /** Half swings in the row. */
  count = 0;
  /** Where the row began and where it has come to [tick]. */
  from = 0;
  to = 0;
  /** Full blocks; behind them one is open. */
  private full = 0;
  private perBlock = 1;
  private openCount = 0;
  private openSum = 0;
  private readonly sum = new Float64Array(mostBlocks + 1);
  private readonly end = new Float64Array(mostBlocks + 1);

  /** A new row, which begins at the turn at `tick`. */
  begin(tick: number): void {
    this.count = 0;
    this.from = tick;
    this.to = tick;
    this.full = 0;
    this.perBlock = 1;
    this.openCount = 0;
    this.openSum = 0;
  }

  /** A half swing of `size`, peak to peak, that ended at `tick`. */
  push(size: number, tick: number): void {
    this.count++;
    this.to = tick;
    this.openCount++;
    this.openSum += size;
    if (this.openCount < this.perBlock) return;
    this.sum[this.full] = this.openSum;
    this.end[this.full] = tick;
    this.full++;
    this.openCount = 0;
    this.openSum = 0;
    if (this.full === mostBlocks) this.merge();
  }

  private merge(): void {
    this.full = mostBlocks / 2;
    for (let b = 0; b < this.full; b++) {
      this.sum[b] = this.sum[2 * b]! + this.sum[2 * b + 1]!;
      this.end[b] = this.end[2 * b + 1]!;
    }
    this.perBlock *= 2;
  }

  /** Blocks that hold anything. */
  get blocks(): number {
    return this.openCount > 0 ? this.full + 1 : this.full;
  }

  /** Half swings in block b. */
  countIn(b: number): number {
    return b < this.full ? this.perBlock : this.openCount;
  }

  /** Sum of the sizes in block b. */
  sumIn(b: number): number {
    return b < this.full ? this.sum[b]! : this.openSum;
  }

  startOf(b: number): number {
    return b > 0 ? this.end[b - 1]! : this.from;
  }

  endOf(b: number): number {
    return b < this.full ? this.end[b]! : this.to;
  }
}
