import { readFileSync } from 'node:fs';

/** Version of this tool, from its package file. */
export const toolVersion: string = (
  JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8')) as { version: string }
).version;
