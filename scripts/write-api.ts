/** Writes the pages of what the library offers and of what commands print with `--json`. */
import { writeFileSync } from 'node:fs';
import { apiPage, apiPagePath } from './api-page.ts';
import { jsonPage, jsonPagePath } from './json-page.ts';

writeFileSync(apiPagePath, apiPage());
writeFileSync(jsonPagePath, jsonPage());
