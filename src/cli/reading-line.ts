/** One line on stderr that says how far a long file is read. Shown on a terminal, and only once it takes a while. */
const quiet_ms = 300;
const every_ms = 200;

export class ReadingLine {
  readonly #file: string;
  readonly #start_ms = performance.now();
  #next_ms = quiet_ms;
  #shown = false;

  constructor(file: string) {
    this.#file = file;
  }

  at(rows: number, fraction: number | null): void {
    const spent_ms = performance.now() - this.#start_ms;
    if (spent_ms < this.#next_ms || process.stderr.isTTY !== true) return;
    this.#next_ms = spent_ms + every_ms;
    this.#shown = true;
    const part = fraction === null ? '' : `, ${Math.round(100 * fraction)} %`;
    process.stderr.write(`\r\u001b[2Kreading ${this.#file}: ${rows} rows${part}`);
  }

  clear(): void {
    if (this.#shown) process.stderr.write('\r\u001b[2K');
  }
}
