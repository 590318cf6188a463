/** Columns of one length in one piece of memory: making a piece for each takes longer than filling it. `room`: a piece that is free. */
export function columnsOf(
  channelCount: number,
  length: number,
  room = new Float32Array(channelCount * length),
): Float32Array[] {
  return Array.from({ length: channelCount }, (_, c) => room.subarray(c * length, (c + 1) * length));
}
