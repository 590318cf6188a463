/** Channels in a text, and each as people read it: `A.S1.voltage_V` is `A.S1 voltage`, `T1.capacitor_V` is `T1 capacitor voltage`. */
const quantities: Readonly<Record<string, string>> = { V: 'voltage', A: 'current', W: 'power' };

export const channelInText: RegExp =
  /(?<![\w./-])[A-Za-z]\w*(?:\.\w+)*\.[a-z][a-z_]*_(?:V|A|W|ratio)(?![\w.]\w)/g;

export function channelWords(channel: string): string {
  const [, owner = '', name = '', unit = ''] = /^(.*)\.([a-z_]+)_(V|A|W|ratio)$/.exec(channel) ?? [];
  if (owner === '') return channel;
  const words = name.replaceAll('_', ' ').replace(/\bac\b/, 'AC');
  const quantity = quantities[unit] ?? '';
  return `${owner} ${words.includes(quantity) ? words : `${words} ${quantity}`}`;
}
