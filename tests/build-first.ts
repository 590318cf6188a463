/** Tests start commands and threads as they are built: from the sources as they are. */
export { buildWhereChanged as setup } from '../scripts/build.ts';
