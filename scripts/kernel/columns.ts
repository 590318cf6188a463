/**
 * Columns of numbers in AssemblyScript: an address, read and written without a check. What stands here is text for its
 * compiler, put before the translated kernel; `Float64Array` and its like become these.
 */
const column = (name: string, value: string, stored: string, shift: number): string => `
@unmanaged @final class ${name} {
  // @ts-ignore: decorator
  @inline @operator("[]") get(k: i32): ${value} { return load<${stored}>(changetype<usize>(this) + (<usize>k << ${shift})); }
  // @ts-ignore: decorator
  @inline @operator("[]=") set(k: i32, value: ${value}): void { store<${stored}>(changetype<usize>(this) + (<usize>k << ${shift}), <${stored}>value); }
}`;

/** Name of each kind of column in AssemblyScript. */
export const columnOf: Readonly<Record<string, string>> = {
  Float64Array: 'F64s',
  Int32Array: 'I32s',
  Uint8Array: 'U8s',
};

/**
 * Functions that AssemblyScript has better means for than their loops here, with the same result. They are put in where
 * they are reached.
 */
export const given: Readonly<Record<string, string>> = {
  copy: `
// @ts-ignore: decorator
@inline function copy(to: F64s, from: F64s, count: i32): void { memory.copy(changetype<usize>(to), changetype<usize>(from), <usize>count << 3); }`,
  solveWrittenOut: `
// @ts-ignore: decorator
@external("network", "solve") declare function solveNetwork(d: F64s, l: F64s, v: F64s, current_A: F64s): void;
// @ts-ignore: decorator
@inline function solveWrittenOut(voltages: NodeVoltages, v: F64s, matrix: NodalMatrix, current_A: F64s): void { solveNetwork(matrix.d, matrix.l, v, current_A); }`,
};

export const columnText = [
  column('F64s', 'f64', 'f64', 3),
  column('I32s', 'i32', 'i32', 2),
  column('U8s', 'i32', 'u8', 0),
].join('\n');
