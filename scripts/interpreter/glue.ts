/**
 * The interpreter's own loader as text, made to load at once: a run is made in one go, and what it needs is there or not. Each
 * edit must fit exactly once, or the build fails.
 */
const edits: readonly (readonly [found: string, put: string])[] = [
  ['async function QuickJSRaw(', 'export function loaded('],
  ['Z=await (async function(){', 'Z=(function(){'],
  ['return new Promise(b=>{c.instantiateWasm(d,(e,f)=>{b(a(e,f))})})', 'return a(c.instantiateWasm(d))'],
  ['return a((await ea(d)).instance)', 'throw new Error("no module")'],
  ['ba=import.meta.url', 'ba=""'],
  ['new URL("emscripten-module.wasm",import.meta.url)', 'new URL("")'],
  ['export default QuickJSRaw;', ''],
];

export function loadingAtOnce(text: string): string {
  return edits.reduce((made, [found, put]) => {
    if (made.split(found).length !== 2) throw new Error(`the loader holds not once: ${found}`);
    return made.replace(found, () => put);
  }, text);
}
