/** What stands where a key, a word or a quantity was. */
export const intruders: readonly string[] = [
  ...'null ~ true no 0 -0 -1 1e999 -1e999 1e308 1e-320 .nan .inf NaN Infinity 0x1F 0o17 1_000 1,5 1.5.2'.split(
    ' ',
  ),
  ...'[] {} [1,2] {a: 1} [[[[]]]] "" "x" &a *a <<: !!binary !!js/function !!float !!str | > ? - -- --- ...'.split(
    ' ',
  ),
  ...'__proto__ constructor prototype toString hasOwnProperty length then valueOf'.split(' '),
  ...'../../etc/passwd /dev/zero /dev/stdin file:///etc/passwd ~ . .. / \\ C:\\x'.split(' '),
  ...'240V 240 kv|5 ms ms|240 kW kW|-5 %|1e400 V|٣ V|5 ＶＶ|1 kV/µs²|∞ A|<script>|$(x)|=1+1|%s%n'.split('|'),
  '9'.repeat(400),
  'x'.repeat(5000),
  '\u0000',
  '\uFEFF',
  '\u202E',
  '\uD800',
  '2030-03-17T10:00:00Z',
  '1:30:00',
  '[&a [*a, *a]]',
  '{<<: {a: 1}}',
  '# nothing',
  '',
];
