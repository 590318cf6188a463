import { spawnSync } from 'node:child_process';
import { expect, test } from 'vitest';

test('a series that hangs is ended by its watchdog, which says at which number', () => {
  const path = new URL('../../scripts/series/watchdog.ts', import.meta.url).pathname;
  const text = `import { watchdog } from ${JSON.stringify(path)};
    const beat = watchdog(1);
    beat(1); beat(7);
    for (;;);`;
  const { signal, stdout } = spawnSync(
    process.execPath,
    ['--import', 'tsx', '--input-type=module', '-e', text],
    { encoding: 'utf8', timeout: 30_000 },
  );
  expect([signal, stdout]).toEqual(['SIGKILL', 'number 7 hangs: nothing for 1 s\n']);
});
