/** One line on stderr that says how far a run is. Silent where stderr is no terminal. */
export class Progress {
  readonly #shown: boolean;
  readonly #what: string;
  readonly #start_ms = performance.now();

  constructor(what: string, quiet: boolean) {
    this.#what = what;
    this.#shown = process.stderr.isTTY === true && !quiet;
    this.#write(`running ${what} …`);
  }

  at(fraction: number): void {
    const spent_s = (performance.now() - this.#start_ms) / 1000;
    const left_s = fraction > 0.02 ? (spent_s * (1 - fraction)) / fraction : null;
    const left = left_s === null ? '' : `, about ${left_s.toFixed(left_s < 10 ? 1 : 0)} s left`;
    this.#write(`running ${this.#what}: ${Math.round(100 * fraction)} %${left}`);
  }

  /** Takes the line away, so that the result stands alone. */
  clear(): void {
    this.#write('');
  }

  #write(text: string): void {
    if (this.#shown) process.stderr.write(`\r\u001b[2K${text}`);
  }
}
