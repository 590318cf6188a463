/** Quantities in the lines of an estimate: three digits, the unit always there. */
import { formatPercent, formatQuantity } from '../../base/quantity.ts';

export const kW = (value: number): string => formatQuantity(value, 'power', 4);
export const W = (value: number): string => formatQuantity(value, 'power', 3);
export const J = (value: number): string => formatQuantity(value, 'energy', 3);
export const s = (value: number): string => formatQuantity(value, 'time', 3);
export const V = (value: number): string => formatQuantity(value, 'voltage', 4);
export const A = (value: number): string => formatQuantity(value, 'current', 3);
export const F = (value: number): string => formatQuantity(value, 'capacitance', 3);
export const Hz = (value: number): string => formatQuantity(value, 'frequency', 3);
export const percent = (value: number): string => formatPercent(value, 3);
export const ratio = (value: number): string => formatPercent(value, 3);
export const kWs = (value: number): string => formatQuantity(value, 'power_rate', 4);
export const ohm = (value: number): string => formatQuantity(value, 'resistance', 3);
export const H = (value: number): string => formatQuantity(value, 'inductance', 3);
