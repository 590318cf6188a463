/** Writes the tables of loads, events, readings and limits into the pages that show them. */
import { writeFileSync } from 'node:fs';
import { pagesWithTables } from './scenario-tables.ts';

for (const [page, text] of pagesWithTables()) writeFileSync(page, text);
