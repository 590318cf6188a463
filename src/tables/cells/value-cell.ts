import { isDateStamp } from '../stamps/date-stamp.ts';
import { readNumberCell } from './number-cell.ts';

/** Words that stand where nothing was measured. */
const missing = /^(?:nan|n\/?a|null|none|nil|inf|infinity|-+|\?)$/i;
const dateAlone = /^\d{1,4}[-/.]\d{1,2}[-/.]\d{1,4}$/;

/** Whether a cell holds what was measured, or says that nothing was, and so is no name of a column. */
export function isValueCell(cell: string): boolean {
  const text = cell.trim();
  if (text === '') return false;
  return (
    readNumberCell(text, null).kind === 'number' ||
    /^[-+]?\d[\d.,]*e[-+]?\d+$/i.test(text) ||
    isDateStamp(text) ||
    dateAlone.test(text) ||
    saysMissing(text)
  );
}

/** Whether a cell holds a word that stands where nothing was measured. */
export function saysMissing(cell: string): boolean {
  return missing.test(cell.trim());
}
