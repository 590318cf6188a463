/** One line on stderr that says how far a long file is read. Shown on a terminal, and only once it takes a while. */
import type { ReadingProgress } from '../../request/read-load.ts';

const quiet_ms = 300;
const every_ms = 200;

/** Does `work` with such a line, and takes the line away. */
export function withReadingLine<T>(work: (onProgress: ReadingProgress) => T): T {
  const start_ms = performance.now();
  let next_ms = quiet_ms;
  let shown = false;
  try {
    return work((path, rows, fraction) => {
      const spent_ms = performance.now() - start_ms;
      if (spent_ms < next_ms || process.stderr.isTTY !== true) return;
      next_ms = spent_ms + every_ms;
      shown = true;
      const part = fraction === null ? '' : `, ${Math.round(100 * fraction)} %`;
      process.stderr.write(`\r\u001b[2Kreading ${path}: ${rows} rows${part}`);
    });
  } finally {
    if (shown) process.stderr.write('\r\u001b[2K');
  }
}
