import { createHash } from 'node:crypto';
import { gunzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { fillShell } from '../../../src/cli/pages/shell.ts';

const text = '</SCRIPT><!-- $& /*STYLE*/';
const fill = (script = 'start()', style = 'p{}', name = 'a.json'): string =>
  fillShell({
    main: 'main.html',
    maker: 'view',
    cautions: ['Verify by test.'],
    checked: 'Every file was looked at.',
    script,
    style,
    carried: [[name, new TextEncoder().encode(text)]],
  });

describe('fillShell', () => {
  it('names script and style in the policy by their sums', () => {
    const page = fill();
    for (const own of ['start()', 'p{}'])
      expect(page).toContain(`'sha256-${createHash('sha256').update(own).digest('base64')}'`);
    expect(page).toContain('<script>start()</script>');
  });

  it('carries bytes without a letter of theirs in the markup', () => {
    const page = fill();
    expect(page).not.toContain(text);
    const [, packed] = /id="file-a\.json"[^>]*>([A-Za-z0-9+/=]+)</.exec(page)!;
    expect(gunzipSync(Buffer.from(packed!, 'base64')).toString()).toBe(text);
  });

  it.each(['"</ScRiPt>"', 'x<!--y', '"\0"', '`a\rb`'])(
    'refuses a script that HTML would read otherwise: %j',
    (odd) => {
      expect(() => fill(odd)).toThrow(RangeError);
    },
  );

  it('refuses a style that closes itself, and a name that is no name', () => {
    expect(() => fill('', 'p{content:"</STYLE >"}')).toThrow(RangeError);
    expect(() => fill('', '', 'a"b')).toThrow(RangeError);
  });
});
