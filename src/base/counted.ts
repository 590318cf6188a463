/** A number with its noun, singular where it is one: `1 feeder`, `2 shelves`. */
export function counted(n: number, one: string, many = `${one}s`): string {
  return `${n} ${n === 1 ? one : many}`;
}
