// What a run's thread starts from.
require('./load.cjs').load('run-thread');
