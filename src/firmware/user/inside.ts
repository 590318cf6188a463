/**
 * What stands in the interpreter beside the user's module: takes away what is not for it, calls it, and puts what it answers into
 * columns. A function answers nothing where all is well, else in words: those that begin with `\u0001` are of something thrown.
 */
export const inside: string = `(() => {
const kept = ['Error', 'EvalError', 'RangeError', 'ReferenceError', 'SyntaxError', 'TypeError', 'URIError', 'InternalError',
  'AggregateError', 'Array', 'Object', 'Iterator', 'parseInt', 'parseFloat', 'isNaN', 'isFinite', 'decodeURI',
  'decodeURIComponent', 'encodeURI', 'encodeURIComponent', 'Infinity', 'NaN', 'undefined', 'Number', 'Boolean', 'String', 'Math',
  'Reflect', 'Symbol', 'globalThis', 'BigInt', 'RegExp', 'JSON', 'Proxy', 'Map', 'Set', 'WeakMap', 'WeakSet', 'ArrayBuffer',
  'Uint8ClampedArray', 'Int8Array', 'Uint8Array', 'Int16Array', 'Uint16Array', 'Int32Array', 'Uint32Array', 'BigInt64Array',
  'BigUint64Array', 'Float16Array', 'Float32Array', 'Float64Array', 'DataView'];
for (const name of Object.getOwnPropertyNames(globalThis)) if (!kept.includes(name)) delete globalThis[name];
// Text that becomes code, and memory that moves away.
for (const made of [function () {}, function* () {}, async function () {}, async function* () {}]) {
  const above = Object.getPrototypeOf(made);
  if (above !== null) delete above.constructor;
}
for (const name of ['transfer', 'transferToFixedLength', 'resize']) delete ArrayBuffer.prototype[name];
Math.random = () => { throw new Error('random numbers would make two runs differ: keep a generator in memory'); };

const { parse, stringify } = JSON;
const isArray = Array.isArray, isView = ArrayBuffer.isView, freezeOne = Object.freeze, valuesOf = Object.values;
const Numbers = Float64Array;
const freeze = (x) => { if (typeof x === 'object' && x !== null) { for (const y of valuesOf(x)) freeze(y); freezeOne(x); } return x; };
const isFiniteNumber = (x) => typeof x === 'number' && x - x === 0;
const word = (x) => {
  if (typeof x === 'string') return stringify(x.slice(0, 40));
  if (typeof x === 'object' && x !== null) {
    if (typeof x.then === 'function') return 'a promise';
    return isArray(x) || isView(x) ? 'a list of ' + x.length : 'an object';
  }
  return typeof x === 'function' ? 'a function' : String(x);
};
const list = (given, out, units, what) => {
  if (given === null || typeof given !== 'object' || typeof given.length !== 'number')
    return what + ' returned ' + word(given) + ' in place of ' + out.length + ' numbers';
  if (given.length !== out.length)
    return what + ' returned ' + given.length + ' numbers in place of ' + out.length;
  for (let k = 0; k < out.length; k++) {
    const x = given[k];
    if (!isFiniteNumber(x)) return what + ' returned ' + word(x) + ' for ' + units[k];
    out[k] = x;
  }
};
const thrown = (error) => {
  try {
    if (typeof error !== 'object' || error === null) return '\\u0001' + String(error) + '\\u0001';
    const { name, message, stack } = error;
    const said = [name, message].filter((part) => typeof part === 'string' && part !== '').join(': ');
    return '\\u0001' + said.slice(0, 400) + '\\u0001' + (typeof stack === 'string' ? stack.slice(0, 4000) : '');
  } catch {
    return '\\u0001something that cannot be put in words\\u0001';
  }
};
const guarded = (work) => { try { return work(); } catch (error) { return thrown(error); } };

return (setupText, unitsText, kindsText) => {
  const setup = freeze(parse(setupText)), units = parse(unitsText), kinds = parse(kindsText);
  const columns = {}, input = {};
  for (const [name, kind] of Object.entries(kinds))
    input[name] = kind === 'flags' ? units.map(() => false) : kind === 'flag' ? false : 0;
  Object.seal(input);
  const filled = Object.entries(kinds).filter(([, kind]) => kind !== 'numbers');
  const fill = () => {
    for (let i = 0; i < filled.length; i++) {
      const name = filled[i][0], kind = filled[i][1], cell = columns[name];
      if (kind === 'flags') for (let k = 0; k < cell.length; k++) input[name][k] = cell[k] !== 0;
      else input[name] = kind === 'flag' ? cell[0] !== 0 : cell[0];
    }
  };
  const module = { exports: {} };
  const require = (name) => { throw new Error('it imports ' + name + ': a controller stands alone, only types may be imported'); };
  let controller = null, names = [];
  return {
    thrown,
    column: (name, buffer, count) => {
      columns[name] = new Numbers(buffer, 0, count);
      if (kinds[name] === 'numbers') input[name] = columns[name];
    },
    exportsOf: (body) => guarded(() => { body(module, module.exports, require); }),
    load: () => guarded(() => {
      controller = module.exports.controller;
      if (controller === null || typeof controller !== 'object') return 'no export named controller';
      if (typeof controller.run !== 'function') return 'a controller without the function run';
      names = controller.memory === undefined ? [] : [...controller.memory(setup)];
      if (names.length > 10000) return 'memory() that gives ' + names.length + ' names, of 10 000 at most';
      for (let k = 0; k < names.length; k++)
        if (typeof names[k] !== 'string' || names.indexOf(names[k]) < k) return 'memory() that does not give names, each once';
    }),
    memoryNames: () => {
      let said = String(names.length);
      for (let k = 0; k < names.length; k++) said += '\\u0001' + names[k];
      return said;
    },
    hasRest: () => { if (typeof controller.rest === 'function') return 'yes'; },
    run: () => guarded(() => { fill(); return list(controller.run(input, columns.memory, setup, columns.shown), columns.out, units, 'run()'); }),
    restingMemory: (restText) => guarded(() => {
      if (controller.restingMemory === undefined) { columns.memory.fill(0); return; }
      return list(controller.restingMemory(parse(restText), setup), columns.memory, names, 'restingMemory()');
    }),
    restingTrim: () => guarded(() => {
      const { at } = columns;
      const u = controller.rest(at[0], at[1], at[2], setup);
      if (!isFiniteNumber(u)) return 'rest() returned ' + word(u) + ' for ' + units[at[0]];
      at[3] = u;
    }),
  };
};
})()`;
