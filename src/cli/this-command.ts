/** Which command of this process is being carried out: what one has read is none of the next one's. */
let count = 0;

export function beginCommand(): void {
  count++;
}

export function thisCommand(): number {
  return count;
}
