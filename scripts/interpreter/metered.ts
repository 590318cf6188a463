/**
 * A WebAssembly module that counts what it does: each turn of each of its loops, and each 64 bytes that it fills or moves at
 * once, takes one from `left`; below zero it traps. Whatever runs inside ends by that, in the same place on any machine.
 */
import binaryen from 'binaryen';

const features =
  binaryen.Features.SignExt |
  binaryen.Features.NontrappingFPToInt |
  binaryen.Features.BulkMemory |
  binaryen.Features.BulkMemoryOpt |
  binaryen.Features.MutableGlobals;

const counter = `
 (global $left (mut i32) (i32.const 2147483647))
 (export "left" (global $left))
 (func $spend (param $n i32)
  (global.set $left (i32.sub (global.get $left) (local.get $n)))
  (if (i32.lt_s (global.get $left) (i32.const 0)) (then (unreachable))))
 (func $spend_fill (param $to i32) (param $value i32) (param $bytes i32)
  (call $spend (i32.shr_u (local.get $bytes) (i32.const 6)))
  (memory.fill (local.get $to) (local.get $value) (local.get $bytes)))
 (func $spend_copy (param $to i32) (param $from i32) (param $bytes i32)
  (call $spend (i32.shr_u (local.get $bytes) (i32.const 6)))
  (memory.copy (local.get $to) (local.get $from) (local.get $bytes)))
)`;

/** Throws where the module holds anything of unbounded length that is not counted, or is not valid afterwards. */
export function metered(bytes: Uint8Array): Uint8Array {
  const text = binaryen.readBinary(bytes).emitText();
  const loops = text.match(/\(loop\b/g)?.length ?? 0;
  const named = /\(loop (\$\S+)((?: \(result \w+\))?)(?=\n)/g;
  if (loops === 0 || text.match(named)?.length !== loops) throw new Error('a loop that cannot be counted');
  if (/\b(return_call|memory\.init|table\.(?:fill|copy|init)|array\.)/.test(text))
    throw new Error('work that is not counted');
  const counting = text
    .replace(named, '(loop $1$2 (call $spend (i32.const 1))')
    .replaceAll('(memory.fill', '(call $spend_fill')
    .replaceAll('(memory.copy', '(call $spend_copy')
    .replace(/\)\s*$/, counter);
  const module = binaryen.parseText(counting);
  module.setFeatures(features);
  module.runPasses(['inlining']);
  if (module.validate() === 0) throw new Error('the counting module is not valid');
  return module.emitBinary();
}
