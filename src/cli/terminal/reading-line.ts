/** One line on stderr that says how far reading is. Shown on a terminal, and only once it takes a while. */
import type { ReadingProgress } from '../../request/read-load.ts';

const quiet_ms = 300;
const every_ms = 200;

/** Does `work`, shows what it says now and then, and takes the line away. */
export function withLine<T>(work: (say: (words: () => string) => void) => T): T {
  const start_ms = performance.now();
  let next_ms = quiet_ms;
  let shown = false;
  try {
    return work((words) => {
      const spent_ms = performance.now() - start_ms;
      if (spent_ms < next_ms || process.stderr.isTTY !== true) return;
      next_ms = spent_ms + every_ms;
      shown = true;
      process.stderr.write(`\r\u001b[2K${words()}`);
    });
  } finally {
    if (shown) process.stderr.write('\r\u001b[2K');
  }
}

/** Does `work` with a line on the long file that is read. */
export function withReadingLine<T>(work: (onProgress: ReadingProgress) => T): T {
  return withLine((say) =>
    work((path, rows, fraction) =>
      say(() => {
        const part = fraction === null ? '' : `, ${Math.round(100 * fraction)} %`;
        return `reading ${path}: ${rows} rows${part}`;
      }),
    ),
  );
}
