/** Writes the page of what the library offers. */
import { writeFileSync } from 'node:fs';
import { apiPage, apiPagePath } from './api-page.ts';

writeFileSync(apiPagePath, apiPage());
