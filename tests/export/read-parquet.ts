/** Parquet by another reader than the writer's own library. */
import { readFileSync } from 'node:fs';
import { tableFromIPC } from 'apache-arrow';
import { ParquetFile, readParquet } from 'parquet-wasm/node';

/** Columns by name; a gap is null. */
export async function parquetColumns(path: string): Promise<ReadonlyMap<string, readonly unknown[]>> {
  const table = tableFromIPC(readParquet(new Uint8Array(readFileSync(path))).intoIPCStream());
  return new Map(table.schema.fields.map(({ name }, c) => [name, [...table.getChildAt(c)!]]));
}

export async function rowGroups(path: string): Promise<number> {
  const file = await ParquetFile.fromFile(new Blob([new Uint8Array(readFileSync(path))]));
  return file.metadata().numRowGroups();
}
