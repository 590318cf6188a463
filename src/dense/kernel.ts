/**
 * What of dense matrices and of long columns of samples takes long. The build compiles these functions and all that they reach to WebAssembly
 * (`scripts/kernel/`); run as they stand they are the plain form, with the same bits.
 */
export { eliminate } from './elimination.ts';
export { senseEnvelope } from './envelope.ts';
export { filter, wave } from './filters.ts';
export { takeOut } from './krylov.ts';
export { addProduct, apply } from './products.ts';
export { iterate } from './qr-iteration.ts';
export { reduce } from './reduction.ts';
export { solveShifted } from './shifted.ts';
export { takeSteps } from './stepping.ts';
