// Runs a script of this folder with the code that V8 has made of it before (`keep.cjs`): neither read nor compiled again. Code of
// another version, or under other flags, V8 does not take; the text is then compiled as any other.
const { readFileSync } = require('node:fs');
const { createRequire, wrap } = require('node:module');
const { join } = require('node:path');
const { setFlagsFromString } = require('node:v8');
const { Script } = require('node:vm');

/**
 * A command is over before most of what V8 begins to optimise has paid for it: four times as hot as usual is hot here, and
 * less is taken in at once. What a long run repeats is optimised all the same. Before any thread is started.
 */
exports.patiently = () => {
  setFlagsFromString('--interrupt-budget=300000');
  setFlagsFromString('--max-inlined-bytecode-size-cumulative=300');
};

/** What is kept; none where it is not there or may not be read: the text alone does. */
function codeIn(file) {
  try {
    return readFileSync(file);
  } catch {
    return undefined;
  }
}

/** Starts `name`, and gives the script that was started. */
exports.load = (name) => {
  const filename = join(__dirname, `${name}.cjs`);
  const kept = join(__dirname, `${name}.code`);
  // The text is ASCII, which takes a byte for each letter.
  const script = new Script(wrap(readFileSync(filename, 'latin1')), {
    // Kept with the code: where it will stand once it is whole.
    filename: join(__dirname.replace(/\.part$/, ''), `${name}.cjs`),
    cachedData: codeIn(kept),
  });
  const own = { exports: {} };
  script.runInThisContext().call(own.exports, own.exports, createRequire(filename), own, filename, __dirname);
  return script;
};
