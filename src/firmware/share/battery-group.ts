/** The battery shelves as a group that shares: on line while they carry; asleep they forget their trims. */
import type { Handover } from '../battery/handover.ts';
import type { Site } from '../site.ts';
import type { ShareGroup } from './share-group.ts';

export function batteryGroup({ batteries: units }: Site, { phases }: Handover): ShareGroup {
  const none = new Float64Array(units.count);
  const carries = (k: number): boolean => units.isRunning(k) && phases.of[k] === 'carrying';
  return {
    task: 'battery share',
    units,
    isOnLine: (k) => carries(k) && !units.isClamped(k),
    isAtLimit: (k) => carries(k) && units.isAtLimit(k),
    forgets: true,
    gain: none,
    offset: none,
    behind: none,
  };
}
