/**
 * Says on stderr how far a run is: on a terminal in one line that is written over, anywhere else in plain lines of their
 * own, the first after half a minute, each of the others once twice as much time has passed.
 */
export class Progress {
  readonly #quiet: boolean;
  readonly #isTerminal: boolean = process.stderr.isTTY === true;
  readonly #what: string;
  readonly #start_ms = performance.now();
  /** The furthest it was said to be: what comes to be wanted later takes nothing back. */
  #reached = 0;
  /** When the next plain line is due [s]. */
  #due_s = firstLine_s;

  constructor(what: string, quiet: boolean) {
    this.#what = what;
    this.#quiet = quiet;
    this.#write(`running ${what} …`);
  }

  /** `fraction` of what is known to be wanted so far; more may come to be wanted, so that the whole is never claimed. */
  at(fraction: number): void {
    const spent_s = (performance.now() - this.#start_ms) / 1000;
    this.#reached = Math.max(this.#reached, Math.min(fraction, most));
    const words = `running ${this.#what}: ${progressWords(this.#reached, spent_s)}`;
    this.#write(words);
    if (this.#isTerminal || this.#quiet || spent_s < this.#due_s) return;
    process.stderr.write(`${words}\n`);
    while (this.#due_s <= spent_s) this.#due_s *= 2;
  }

  /** Takes the line away, so that the result stands alone. */
  clear(): void {
    this.#write('');
  }

  #write(text: string): void {
    if (this.#isTerminal && !this.#quiet) process.stderr.write(`\r\u001b[2K${text}`);
  }
}

/** What is done sooner needs no line in a log [s]. */
const firstLine_s = 30;

/** As far as a line that is still shown may say: what is done is said by the result. */
const most = 0.99;

/** How far, and how long it takes at this rate: whole seconds, rounded to what is known of it, none below 2 %. */
export function progressWords(reached: number, spent_s: number): string {
  const percent = `${Math.floor(100 * reached)} %`;
  if (reached <= 0.02) return percent;
  const left_s = (spent_s * (1 - reached)) / reached;
  if (left_s < 5) return `${percent}, a few seconds left`;
  const known = left_s < 60 ? 5 * Math.round(left_s / 5) : 60 * Math.round(left_s / 60);
  return `${percent}, about ${known < 60 ? `${known} s` : `${known / 60} min`} left`;
}
