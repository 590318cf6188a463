/** A scenario's text with changes written into it: the file that runs like the scenario under those changes. */
import { isMap, parseDocument } from 'yaml';
import { stateKindOf } from '../part-states.ts';
import type { Change } from '../scenario.ts';
import { eventWords } from '../sections/event-fields.ts';

/**
 * Later changes of a path replace earlier ones; states of parts and events stand in their own sections. Comments and what else the
 * text holds stay. The text must be one that was read without a problem, and the changes those that it was run with.
 */
export function writtenInto(text: string, changes: readonly Change[]): string {
  const document = parseDocument(text);
  const put = (section: string, key: string, value: string): void => {
    const before = document.get(section);
    // A change comes into effect in its order: one of an earlier place moves behind the others.
    if (isMap(before)) before.delete(key);
    document.setIn([section, key], value);
  };
  for (const { path, value } of changes) {
    if (path === 'events.add') {
      const event = Object.fromEntries(eventWords(value) ?? []);
      const events = document.get('events', true);
      if (events === undefined) document.set('events', document.createNode([event]));
      else document.addIn(['events'], document.createNode(event));
    } else {
      const state = stateKindOf(path);
      if (state === null) put('changes', path, value);
      else put(state, path.slice(state.length + 1), value);
    }
  }
  return document.toString({ lineWidth: 110 });
}
