/** Columns of one length in one piece of memory: making a piece for each takes longer than filling it. */
export function columnsOf(channelCount: number, length: number): Float32Array[] {
  const { buffer, BYTES_PER_ELEMENT } = new Float32Array(channelCount * length);
  const column_bytes = BYTES_PER_ELEMENT * length;
  return Array.from({ length: channelCount }, (_, c) => new Float32Array(buffer, c * column_bytes, length));
}
