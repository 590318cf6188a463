// Keeps the code of what a command compiles on its way: started with the words of a command, which it carries out. The thread of
// its run starts from this file as well.
const { writeFileSync } = require('node:fs');
const { join } = require('node:path');
const { setFlagsFromString } = require('node:v8');
const { isMainThread, parentPort } = require('node:worker_threads');
const { load, patiently } = require('./load.cjs');

function keep(name, script) {
  // Flags are part of what code is known by: those of a command again.
  setFlagsFromString('--flush-bytecode');
  writeFileSync(join(__dirname, `${name}.code`), script.createCachedData());
}

// What has not been called for a while stays as well.
setFlagsFromString('--no-flush-bytecode');
if (isMainThread) {
  patiently();
  const script = load('command');
  process.once('exit', () => keep('command', script));
} else {
  const script = load('run-thread');
  const post = parentPort.postMessage.bind(parentPort);
  parentPort.postMessage = (message, moved) => {
    if (message.kind === 'done') keep('run-thread', script);
    post(message, moved);
  };
}
