/** Stands in the page's engine for the reader of Parquet files, which would make every page a third larger. */
import { BadInput } from '../../../../src/base/problem.ts';
import type * as whole from '../../../../src/tables/rows/parquet-text.ts';

export const isParquet: typeof whole.isParquet = (first) =>
  first[0] === 0x50 && first[1] === 0x41 && first[2] === 0x52 && first[3] === 0x31;

export const bytesAtHand: typeof whole.bytesAtHand = (bytes) => ({
  size: bytes.length,
  read: (from, to) => bytes.subarray(from, to),
});

export const parquetPieces: typeof whole.parquetPieces = (_file, name) => {
  throw new BadInput([
    {
      severity: 'error',
      file: name,
      found: 'a recording in Parquet',
      expected: 'a recording as text',
      mend: 'the page reads no Parquet: change it by --set on the command line',
    },
  ]);
};
