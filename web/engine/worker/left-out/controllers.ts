/** Stands in the page's engine for the reader of a user's own controllers: they run in Node alone. */
import type * as whole from '../../../../src/scenario/sections/controllers.ts';
import { problemAt } from '../../../../src/scenario/text/document.ts';

export const readControllers: typeof whole.readControllers = (_file, root, { problems }) => {
  const entry = root.entries.get('controllers');
  if (entry !== undefined)
    problems.push(
      problemAt(
        entry.keyOrigin,
        'controllers',
        "controllers of the user's own",
        'firmware that comes with the tool',
        'the page runs no code of others: change it by --set on the command line',
      ),
    );
  return [];
};
