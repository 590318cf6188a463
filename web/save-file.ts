/** Hands a file to the browser to be kept; it never leaves the page over a connection. */
import { html } from './dom.ts';

export function saveFile(name: string, content: Blob): void {
  const link = html('a', { href: URL.createObjectURL(content), download: name });
  link.click();
  // The browser reads it after the click has returned.
  setTimeout(() => URL.revokeObjectURL(link.href), 1000);
}
