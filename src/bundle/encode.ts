/** A run as the bytes of its files. Pure: sums and the file system come in `write.ts`. */
import { columnsOf, packColumns } from './columns.ts';
import type { Bundle, Encoded } from './format.ts';
import { looseJson, strictJson } from './json.ts';
import { packWake } from './wake.ts';

/** All files but the manifest. Throws RangeError where the report holds a number that is not finite. */
export function encodeBundle({ report, result, scenario, provenance }: Bundle): Encoded {
  const wake = packWake(result.recording);
  const columns = packColumns(columnsOf(result));
  const files = new Map<string, Uint8Array>([
    ['request.json', utf8(strictJson('request', provenance.request))],
    ['report.json', utf8(strictJson('report', report))],
    ['scenario.json', utf8(looseJson({ ...scenario, origins: [...scenario.origins] }))],
    ['readings.json', utf8(looseJson(readingsOf(result)))],
    ['log.json', utf8(strictJson('log', result.log))],
    ['wake.f32', wake.bytes],
    ['streams.f64', columns.bytes],
    ...provenance.inputs.map(({ file, content }): [string, Uint8Array] => [file, content]),
  ]);
  const inputs = provenance.inputs.map(({ content: _content, ...entry }) => entry);
  return { wake: wake.layout, columns: columns.layout, inputs, files };
}

/** What of a result is neither a long column nor the log: heads and small tables. */
function readingsOf(result: Bundle['result']): object {
  const { recording: _recording, log: _log, stays, means, streams, ...rest } = result;
  return {
    ...rest,
    stays: { nodes: stays.nodes, carry_s: stays.carry_s },
    means: { width_s: means.width_s, from_s: means.from_s, at_start: means.at_start },
    streams: streams.map(({ samples: _samples, ...head }) => head),
  };
}

function utf8(text: string): Uint8Array {
  return new TextEncoder().encode(text);
}
