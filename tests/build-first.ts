/** Tests start commands and threads as they are built: from the sources as they are. */
export { buildAll as setup } from '../scripts/build.ts';
