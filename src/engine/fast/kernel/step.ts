/**
 * The step of src/engine/stepper.ts once more, in AssemblyScript, compiled to WebAssembly by `npm run kernel`.
 * The plain kernel in TypeScript stays the truth: the same operations in the same order, compared bit for bit
 * in tests/engine/fast.test.ts. No equation is born here; change the device first, then this file.
 *
 * All arrays lie in one memory. Where each begins stands in a directory at address 16, in the order of `D`
 * below; the glue (src/engine/fast/fast-kernel.ts) fills it from the same list of names. Coefficients of a rung
 * lie behind a directory of their own, in the order of `R`. `look` is what the recorder and the meters do per step.
 */

// directory: counts and offsets of the state vector
const N_NODE = 0, N_BAR = 1, N_CAP = 2, N_BANK = 3, N_STAGE = 4, N_INTAKE = 5, N_TRAY = 6, N_SLED = 7, N_PACK = 8;
const O_BAR = 9, O_CAP = 10, O_BANK = 11, O_STAGE = 12, O_INTAKE = 13, O_TRAY = 14, O_SLED = 15, O_PACK = 16, O_SENSOR = 17;
const FIRST_PACK = 18, N_STATE = 19, N_ENTRY = 20;
// directory: vectors
const X0 = 21, X1 = 22, DX = 23, V0 = 24, V1 = 25, GUESS = 26, VPAST = 27, RHS = 28, FIXED = 29;
// directory: ordering and scratch of the solve
const NODE = 30, POSITION = 31, START = 32, ROW = 33, TARGET = 34, Y = 35;
// directory: bars, capacitors, banks
const BAR_FROM = 36, BAR_TO = 37, BAR_DRIVE = 38, BAR_DECAY = 39, BAR_PAST = 40, BAR_OPEN = 41;
const CAP_NODE = 42, CAP_RATE = 43, CAP_PAST = 44;
const BANK_NODE = 45, BANK_R = 46, BANK_L = 47, BANK_C = 48, BANK_PAST = 49, BANK_PASTV = 50;
// directory: stages
const ST_NODE = 51, ST_KP = 52, ST_DROOP = 53, ST_SLEW = 54, ST_SET = 55, ST_TRIM = 56, ST_RUN = 57, ST_LIM0 = 58, ST_LIM1 = 59;
const ST_MODE = 60, ST_SPAN = 61, ST_PERWINDUP = 62, ST_PERLAG = 63, ST_PERFILTER = 64, ST_PERDELAY = 65, ST_G = 66;
const ST_I = 67, ST_X = 68, ST_F = 69, ST_D1 = 70, ST_D2 = 71, ST_E = 72, ST_OUT = 73;
// directory: intakes
const IN_BULK = 74, IN_REF = 75, IN_MIN = 76, IN_LIMIT = 77, IN_RAMP = 78, IN_MARGIN = 79, IN_A = 80, IN_B = 81, IN_C = 82;
const IN_ICC = 83, IN_PRESENT = 84, IN_WALKING = 85, IN_DC0 = 86, IN_DC1 = 87, IN_GAIN = 88, IN_PERWINDUP = 89, IN_PERLAG = 90;
// directory: trays
const TR_NODE = 91, TR_C0 = 92, TR_KV = 93, TR_VR = 94, TR_R = 95, TR_LEAK = 96, TR_LAG = 97, TR_SLEW = 98, TR_ETA = 99, TR_P0 = 100;
const TR_COMMAND = 101, TR_ALIVE = 102, TR_CURRENT = 103;
// directory: sleds, packs, sensor
const SL_NODE = 104, SL_LAG = 105, SL_VCC = 106, SL_D0 = 107, SL_D1 = 108, SL_ALLOWED = 109, SL_CARRIED = 110, SL_CURRENT = 111;
const PK_Q = 112, PK_ETA = 113, SENSOR = 114;
// directory: what faults, lines and charging set
const IN_CEILING = 115, IN_POWER = 116, ST_REST = 117, SL_SHORT = 118, SL_CC = 119, SL_VN = 120;
// directory: the packs' electrics and heat
const PK_OCV = 121, PK_R0 = 122, PK_R1 = 123, PK_TAU1 = 124, PK_RTH = 125, PK_TTH = 126, PK_TA = 127;
// directory: how the power into the bulk pulses with the line
const IN_M0 = 128, IN_M1 = 129;
// directory: what folds back at low bus voltage
const TR_IBUS = 130, TR_FOLD = 131, ST_FOLD = 132, ST_REST1 = 133;
// directory: what looks on
const N_CHANNEL = 134, N_SHOWN = 135, N_MS = 136, VALUES = 137, SHOWN = 138, IN_ACA = 139, IN_ACB = 140, IN_ACC = 141, IN_LINE = 142;
const TR_LOWJ = 143, TR_WINDOWJ = 144, REC_LOW = 145, REC_HIGH = 146, REC_LOWTICK = 147, REC_HIGHTICK = 148;
const MS_INDEX = 149, MS_PAST = 150, MS_SUM = 151, MS_SQUARE = 152;
const AU_BAR = 153, AU_CAP = 154, AU_BANK = 155, AU_DC = 156, AU_AC = 157, AU_INPUT = 158, AU_CONVERTER = 159, AU_ESR = 160;
const AU_LEAK = 161, AU_PACK = 162, AU_LOAD = 163, BAR_R = 164, BAR_L = 165, AU_TRAYPAST = 166, STAY_LOW = 167, STAY_HIGH = 168, AU_SLEDPAST = 169, AU_PACKPAST = 170;

// rung directory
const R_BAR_Y = 0, R_BAR_KEEP = 1, R_CAP_Y = 2, R_CAP_SHARE = 3, R_BANK_Y = 4, R_BANK_KEEP = 5;
const R_ST = 6; // twelve columns
const R_IN = 18; // five columns
const R_TRAY = 23, R_SLED = 24, R_DIAGONAL = 25, R_BELOW = 26, R_D = 27, R_L = 28, R_LINEAR = 29, R_SENSOR = 30;

const BASE: usize = 16;
const TOLERANCE: f64 = 5e-3;
const MOST_SOLVES: i32 = 12, DAMPED_SOLVES: i32 = 60;
const SLACK: f64 = 1e-9;
const DEAD: f64 = 1e-9;

/** Results of the last step, read by the glue at address 960: surprise, lowest node, solves, factorisations, highest node. */
const RESULT: usize = 960;
let solves: f64 = 0;
let factorisations: f64 = 0;

// @ts-ignore: decorator
@inline function P(i: i32): usize { return <usize>load<u32>(BASE + (<usize>i << 2)); }
// @ts-ignore: decorator
@inline function count(i: i32): i32 { return load<i32>(BASE + (<usize>i << 2)); }
// @ts-ignore: decorator
@inline function R(rung: usize, i: i32): usize { return <usize>load<u32>(rung + (<usize>i << 2)); }
// @ts-ignore: decorator
@inline function f(p: usize, k: i32): f64 { return load<f64>(p + (<usize>k << 3)); }
// @ts-ignore: decorator
@inline function put(p: usize, k: i32, value: f64): void { store<f64>(p + (<usize>k << 3), value); }
// @ts-ignore: decorator
@inline function add(p: usize, k: i32, value: f64): void { const a = p + (<usize>k << 3); store<f64>(a, load<f64>(a) + value); }
// @ts-ignore: decorator
@inline function sub(p: usize, k: i32, value: f64): void { const a = p + (<usize>k << 3); store<f64>(a, load<f64>(a) - value); }
// @ts-ignore: decorator
@inline function int(p: usize, k: i32): i32 { return load<i32>(p + (<usize>k << 2)); }
// @ts-ignore: decorator
@inline function byte(p: usize, k: i32): i32 { return <i32>load<u8>(p + <usize>k); }

// ---------------------------------------------------------------- fold-back

// @ts-ignore: decorator
@inline function foldBack(lowest: f64, v: f64): f64 {
  return v >= lowest ? 1 : v > 0 ? v / lowest : 0;
}

// ---------------------------------------------------------------- bars, capacitors, banks

function beginBars(rhs: usize, rung: usize, q: f64): void {
  const n = count(N_BAR), x = P(X0) + (<usize>count(O_BAR) << 3), v = P(V0);
  const from = P(BAR_FROM), to = P(BAR_TO), drive = P(BAR_DRIVE), decay = P(BAR_DECAY), past = P(BAR_PAST);
  const keep = R(rung, R_BAR_KEEP);
  for (let k = 0; k < n; k++) {
    const a = int(from, k), b = int(to, k);
    const i0 = f(x, k);
    const i = f(keep, k) * (i0 + q * (f(drive, k) * (f(v, a) - f(v, b)) - f(decay, k) * i0));
    put(past, k, i);
    sub(rhs, a, i);
    add(rhs, b, i);
  }
}

function finishBars(rung: usize): void {
  const n = count(N_BAR), x = P(X1) + (<usize>count(O_BAR) << 3), v = P(V1);
  const from = P(BAR_FROM), to = P(BAR_TO), past = P(BAR_PAST), open = P(BAR_OPEN), y = R(rung, R_BAR_Y);
  for (let k = 0; k < n; k++) {
    let i = f(past, k) + f(y, k) * (f(v, int(from, k)) - f(v, int(to, k)));
    if (byte(open, k) && abs(i) < DEAD) i = 0;
    put(x, k, i);
  }
}

function beginCapacitors(rhs: usize, rung: usize, q: f64): void {
  const n = count(N_CAP), x = P(X0) + (<usize>count(O_CAP) << 3), v = P(V0);
  const node = P(CAP_NODE), rate = P(CAP_RATE), past = P(CAP_PAST), y = R(rung, R_CAP_Y);
  for (let k = 0; k < n; k++) {
    const at = int(node, k);
    const u0 = f(x, k);
    const u = u0 + q * f(rate, k) * (f(v, at) - u0);
    put(past, k, u);
    add(rhs, at, f(y, k) * u);
  }
}

function finishCapacitors(rung: usize): void {
  const n = count(N_CAP), x = P(X1) + (<usize>count(O_CAP) << 3), v1 = P(V1);
  const node = P(CAP_NODE), past = P(CAP_PAST), share = R(rung, R_CAP_SHARE);
  for (let k = 0; k < n; k++) {
    const v = f(v1, int(node, k));
    put(x, k, v + f(share, k) * (f(past, k) - v));
  }
}

function flowBanks(): void {
  const n = count(N_BANK), o = <usize>count(O_BANK) << 3, x = P(X0) + o, dx = P(DX) + o, v = P(V0);
  for (let k = 0; k < n; k++) {
    const i = f(x, k);
    const u = f(x, n + k);
    put(dx, k, (u - f(v, int(P(BANK_NODE), k)) - f(P(BANK_R), k) * i) / f(P(BANK_L), k));
    put(dx, n + k, -i / f(P(BANK_C), k));
  }
}

function beginBanks(rhs: usize, rung: usize, q: f64): void {
  const n = count(N_BANK), o = <usize>count(O_BANK) << 3, x = P(X0) + o, dx = P(DX) + o;
  const y = R(rung, R_BANK_Y), keep = R(rung, R_BANK_KEEP);
  for (let k = 0; k < n; k++) {
    const u = f(x, n + k) + q * f(dx, n + k);
    const i = f(keep, k) * (f(x, k) + q * f(dx, k)) + f(y, k) * u;
    put(P(BANK_PASTV), k, u);
    put(P(BANK_PAST), k, i);
    add(rhs, int(P(BANK_NODE), k), i);
  }
}

function finishBanks(rung: usize, q: f64): void {
  const n = count(N_BANK), x = P(X1) + (<usize>count(O_BANK) << 3), v = P(V1), y = R(rung, R_BANK_Y);
  for (let k = 0; k < n; k++) {
    const i = f(P(BANK_PAST), k) - f(y, k) * f(v, int(P(BANK_NODE), k));
    put(x, k, i);
    put(x, n + k, f(P(BANK_PASTV), k) - (q * i) / f(P(BANK_C), k));
  }
}

// ---------------------------------------------------------------- intakes

// @ts-ignore: decorator
@inline function drawn(k: i32, v: f64, i: f64): f64 {
  if (!byte(P(ST_RUN), k) && i < 1e-6) return 0;
  return (v > 0 ? v : 0) * i + f(P(IN_A), k) + (f(P(IN_B), k) + f(P(IN_C), k) * i) * i;
}

// @ts-ignore: decorator
@inline function ceiling(k: i32, r: f64): f64 {
  if (!byte(P(IN_PRESENT), k)) return 0;
  const limit = f(P(IN_CEILING), k);
  return r < limit ? r : limit;
}

function stageLimit(k: i32, bulk: f64, r: f64, v: f64): f64 {
  const most = f(P(IN_ICC), k);
  const byPower = f(P(IN_POWER), k) / (v > 1 ? v : 1);
  const limit = byPower < most ? byPower : most;
  if (!byte(P(IN_PRESENT), k)) return limit;
  const lowest = f(P(IN_MIN), k);
  const fold = (bulk - lowest) / (0.9 * f(P(IN_REF), k) - lowest);
  let folded: f64 = fold >= 1 ? limit : fold > 0 ? limit * fold : 0;
  if (r < f(P(IN_LIMIT), k)) {
    const walk = (f(P(IN_MARGIN), k) * r) / (v > 1 ? v : 1);
    if (walk < folded) folded = walk;
  }
  return folded;
}

function flowIntakes(): void {
  const n = count(N_INTAKE), o = <usize>count(O_INTAKE) << 3, x = P(X0) + o, dx = P(DX) + o, v = P(V0);
  const xs = P(X0) + (<usize>count(O_STAGE) << 3), node = P(ST_NODE);
  for (let k = 0; k < n; k++) {
    const bulk = f(x, k), integral = f(x, n + k), p = f(x, 2 * n + k), r = f(x, 3 * n + k);
    const dc = drawn(k, f(v, int(node, k)), f(xs, k));
    put(P(IN_DC0), k, dc);
    const wanted = f(P(IN_GAIN), k) * (f(P(IN_REF), k) - bulk) + integral;
    const top = ceiling(k, r);
    const saturated: f64 = wanted < 0 ? 0 : wanted > top ? top : wanted;
    put(dx, k, (p * f(P(IN_M0), k) - dc) / (f(P(IN_BULK), k) * bulk));
    put(dx, n + k, (saturated - integral) * f(P(IN_PERWINDUP), k));
    put(dx, 2 * n + k, (saturated - p) * f(P(IN_PERLAG), k));
    put(dx, 3 * n + k, byte(P(IN_WALKING), k) && r < f(P(IN_LIMIT), k) ? f(P(IN_RAMP), k) : 0);
  }
}

function foresee(h: f64): void {
  const n = count(N_INTAKE), o = <usize>count(O_INTAKE) << 3, x = P(X0) + o, dx = P(DX) + o;
  for (let k = 0; k < n; k++) {
    const node = int(P(ST_NODE), k);
    put(P(ST_LIM0), k, stageLimit(k, f(x, k), f(x, 3 * n + k), f(P(V0), node)));
    put(P(ST_LIM1), k, stageLimit(k, f(x, k) + h * f(dx, k), f(x, 3 * n + k) + h * f(dx, 3 * n + k), f(P(GUESS), node)));
  }
}

function finishIntakes(rung: usize, q: f64): void {
  const n = count(N_INTAKE), o = <usize>count(O_INTAKE) << 3, x0 = P(X0) + o, x1 = P(X1) + o, dx = P(DX) + o;
  const xs = P(X1) + (<usize>count(O_STAGE) << 3);
  const kp = R(rung, R_IN), kx = R(rung, R_IN + 1), rp = R(rung, R_IN + 2), rx = R(rung, R_IN + 3), perBulk = R(rung, R_IN + 4);
  for (let k = 0; k < n; k++) {
    const bulk0 = f(x0, k);
    const limit = f(P(IN_LIMIT), k);
    let r = f(x0, 3 * n + k) + 2 * q * f(dx, 3 * n + k);
    if (r > limit) r = limit;
    const dc = drawn(k, f(P(V1), int(P(ST_NODE), k)), f(xs, k));
    put(P(IN_DC1), k, dc);
    const top = ceiling(k, r);
    const pPast = f(x0, 2 * n + k) + q * f(dx, 2 * n + k);
    const xPast = f(x0, n + k) + q * f(dx, n + k);
    const energy0 = bulk0 * bulk0 + f(perBulk, k) * (f(x0, 2 * n + k) * f(P(IN_M0), k) - f(P(IN_DC0), k));
    let bulk = bulk0 + 2 * q * f(dx, k);
    let p: f64 = 0;
    let integral: f64 = 0;
    const gain = f(P(IN_GAIN), k), reference = f(P(IN_REF), k);
    for (let pass = 0; pass < 2; pass++) {
      const e = reference - bulk;
      integral = xPast + f(kx, k) * gain * e;
      let saturated = gain * e + integral;
      if (saturated < 0 || saturated > top) {
        saturated = saturated < 0 ? 0 : top;
        integral = (xPast + f(kx, k) * saturated) * f(rx, k);
      }
      p = (pPast + f(kp, k) * saturated) * f(rp, k);
      const square = energy0 + f(perBulk, k) * (p * f(P(IN_M1), k) - dc);
      bulk = square > 1 ? sqrt(square) : 1;
    }
    put(x1, k, bulk);
    put(x1, n + k, integral);
    put(x1, 2 * n + k, p);
    put(x1, 3 * n + k, r);
  }
}

// ---------------------------------------------------------------- stages

// @ts-ignore: decorator
@inline function resting(k: i32, v: f64): f64 { return f(P(ST_REST), k) * foldBack(f(P(ST_FOLD), k), v); }

function flowStages(): void {
  const n = count(N_STAGE), o = <usize>count(O_STAGE) << 3, x = P(X0) + o, dx = P(DX) + o, v = P(V0);
  for (let k = 0; k < n; k++) {
    const i = f(x, k), integral = f(x, n + k), fil = f(x, 2 * n + k), d1 = f(x, 3 * n + k), d2 = f(x, 4 * n + k);
    const vk = f(v, int(P(ST_NODE), k));
    const e = f(P(ST_SET), k) + f(P(ST_TRIM), k) - f(P(ST_DROOP), k) * fil - (vk - 2 * d2);
    const wanted = f(P(ST_KP), k) * e + integral;
    let saturated: f64;
    if (byte(P(ST_RUN), k)) {
      const span = f(P(ST_SPAN), k), limit = f(P(ST_LIM0), k);
      const lo: f64 = i > span ? i - span : 0;
      const hi = limit < i + span ? limit : i + span;
      const below = wanted < hi ? wanted : hi;
      saturated = below > lo ? below : lo;
    } else saturated = resting(k, vk);
    put(dx, k, (saturated - i) * f(P(ST_PERLAG), k));
    put(dx, n + k, (saturated - integral) * f(P(ST_PERWINDUP), k));
    put(dx, 2 * n + k, (i - fil) * f(P(ST_PERFILTER), k));
    put(dx, 3 * n + k, f(P(ST_PERDELAY), k) * d2);
    put(dx, 4 * n + k, 3 * f(P(ST_PERDELAY), k) * (vk - d1 - d2));
  }
}

function beginStages(rung: usize, q: f64): void {
  const n = count(N_STAGE), o = <usize>count(O_STAGE) << 3, x = P(X0) + o, dx = P(DX) + o;
  const dDen = R(rung, R_ST + 6), dGain = R(rung, R_ST + 7), rKd = R(rung, R_ST + 9);
  for (let k = 0; k < n; k++) {
    put(P(ST_I), k, f(x, k) + q * f(dx, k));
    put(P(ST_X), k, f(x, n + k) + q * f(dx, n + k));
    const fil = f(x, 2 * n + k) + q * f(dx, 2 * n + k);
    put(P(ST_F), k, fil);
    const d1 = f(x, 3 * n + k) + q * f(dx, 3 * n + k);
    const d2 = f(x, 4 * n + k) + q * f(dx, 4 * n + k);
    put(P(ST_D1), k, d1);
    put(P(ST_D2), k, d2);
    const hv = -2 * (d2 - f(dGain, k) * d1) * f(dDen, k);
    put(P(ST_E), k, f(P(ST_SET), k) + f(P(ST_TRIM), k) - f(P(ST_DROOP), k) * fil * f(rKd, k) - hv);
    if (!byte(P(ST_RUN), k)) {
      store<u8>(P(ST_MODE) + <usize>k, 5);
      put(P(ST_REST1), k, resting(k, f(P(GUESS), int(P(ST_NODE), k))));
    } else if (byte(P(ST_MODE), k) == 5) store<u8>(P(ST_MODE) + <usize>k, 0);
  }
}

function addStages(rhs: usize, rung: usize, q: f64): void {
  const n = count(N_STAGE);
  const kappa = R(rung, R_ST), gain = R(rung, R_ST + 3), den = R(rung, R_ST + 4), rKappa = R(rung, R_ST + 8);
  for (let k = 0; k < n; k++) {
    const mode = byte(P(ST_MODE), k);
    const ip = f(P(ST_I), k), ka = f(kappa, k);
    let i: f64 = 0;
    if (mode == 0) i = (ip + ka * (f(gain, k) * f(P(ST_E), k) + f(P(ST_X), k))) * f(den, k);
    else if (mode == 1) i = ip + q * f(P(ST_SLEW), k);
    else if (mode == 3) i = ip - q * f(P(ST_SLEW), k);
    else if (mode == 2) i = (ip + ka * f(P(ST_LIM1), k)) * f(rKappa, k);
    else if (mode == 4) i = ip * f(rKappa, k);
    else i = (ip + ka * f(P(ST_REST1), k)) * f(rKappa, k);
    put(P(ST_OUT), k, i);
    add(rhs, int(P(ST_NODE), k), i);
  }
}

function finishStages(rung: usize, q: f64): bool {
  const n = count(N_STAGE), x1 = P(X1) + (<usize>count(O_STAGE) << 3);
  const kd = R(rung, R_ST + 1), kx = R(rung, R_ST + 2), dDen = R(rung, R_ST + 6), dGain = R(rung, R_ST + 7);
  const rKd = R(rung, R_ST + 9), rKx = R(rung, R_ST + 10), g = R(rung, R_ST + 11);
  let changed = false;
  for (let k = 0; k < n; k++) {
    const v = f(P(V1), int(P(ST_NODE), k));
    const mode = byte(P(ST_MODE), k);
    let i = f(P(ST_OUT), k);
    if (mode == 0) i -= f(g, k) * v;
    const fil = (f(P(ST_F), k) + f(kd, k) * i) * f(rKd, k);
    const d2 = (f(P(ST_D2), k) + f(dGain, k) * (v - f(P(ST_D1), k))) * f(dDen, k);
    const e = f(P(ST_SET), k) + f(P(ST_TRIM), k) - f(P(ST_DROOP), k) * fil - (v - 2 * d2);
    const Kp = f(P(ST_KP), k);
    const span = f(P(ST_SPAN), k);
    const limit = f(P(ST_LIM1), k);
    let x: f64;
    if (mode == 0) x = f(P(ST_X), k) + f(kx, k) * Kp * e;
    else {
      const saturated: f64 =
        mode == 1 ? i + span : mode == 3 ? i - span : mode == 2 ? limit : mode == 4 ? 0 : f(P(ST_REST1), k);
      x = (f(P(ST_X), k) + f(kx, k) * saturated) * f(rKx, k);
    }
    let next = 5;
    if (byte(P(ST_RUN), k)) {
      const wanted = Kp * e + x;
      const lo: f64 = i > span ? i - span : 0;
      const hi = limit < i + span ? limit : i + span;
      if (hi < lo || wanted < lo - SLACK) next = i > span ? 3 : 4;
      else if (wanted > hi + SLACK) next = limit < i + span ? 2 : 1;
      else next = 0;
    }
    if (next != mode) {
      store<u8>(P(ST_MODE) + <usize>k, <u8>next);
      changed = true;
    }
    const perDelay = f(P(ST_PERDELAY), k);
    put(x1, k, i);
    put(x1, n + k, x);
    put(x1, 2 * n + k, fil);
    put(x1, 3 * n + k, perDelay > 0 ? f(P(ST_D1), k) + q * perDelay * d2 : v);
    put(x1, 4 * n + k, d2);
  }
  return changed;
}

// ---------------------------------------------------------------- trays

// @ts-ignore: decorator
@inline function trayMost(k: i32, v: f64): f64 { return f(P(TR_IBUS), k) * foldBack(f(P(TR_FOLD), k), v); }

// @ts-ignore: decorator
@inline function trayBusCurrent(k: i32, p: f64, v: f64): f64 {
  const most = trayMost(k, v);
  if (p < most * v && -p < most * v) return p / v;
  return p > 0 ? most : -most;
}

// @ts-ignore: decorator
@inline function delivered(k: i32, p: f64, v: f64): f64 {
  const most = trayMost(k, v) * v;
  return p > most ? most : p < -most ? -most : p;
}

// @ts-ignore: decorator
@inline function traySlope(k: i32, p: f64, u: f64): f64 {
  const C = f(P(TR_C0), k) * (1 + f(P(TR_KV), k) * (u / f(P(TR_VR), k) - 1));
  const r = f(P(TR_R), k);
  const standing: f64 = byte(P(TR_ALIVE), k) ? f(P(TR_P0), k) : 0;
  const eta = f(P(TR_ETA), k);
  const power = (p > 0 ? p / eta : p * eta) + standing;
  const root = u * u - 4 * r * power;
  const i = root > 0 ? (u - sqrt(root)) / (2 * r) : u / (2 * r);
  return (-i - f(P(TR_LEAK), k)) / C;
}

function flowTrays(): void {
  const n = count(N_TRAY), o = <usize>count(O_TRAY) << 3, x = P(X0) + o, dx = P(DX) + o, v = P(V0);
  for (let k = 0; k < n; k++) {
    const p = f(x, k);
    const S = f(P(TR_SLEW), k);
    const rate = (f(P(TR_COMMAND), k) - p) / f(P(TR_LAG), k);
    put(dx, k, rate > S ? S : rate < -S ? -S : rate);
    put(dx, n + k, traySlope(k, delivered(k, p, f(v, int(P(TR_NODE), k))), f(x, n + k)));
  }
}

function beginTrays(rung: usize, q: f64): void {
  const n = count(N_TRAY), o = <usize>count(O_TRAY) << 3, x0 = P(X0) + o, x1 = P(X1) + o, dx = P(DX) + o;
  const kappa = R(rung, R_TRAY);
  for (let k = 0; k < n; k++) {
    const past = f(x0, k) + q * f(dx, k);
    const command = f(P(TR_COMMAND), k);
    const S = f(P(TR_SLEW), k);
    let p = (past + f(kappa, k) * command) / (1 + f(kappa, k));
    const rate = (command - p) / f(P(TR_LAG), k);
    if (rate > S) p = past + q * S;
    else if (rate < -S) p = past - q * S;
    put(x1, k, p);
  }
}

function finishTrays(q: f64): void {
  const n = count(N_TRAY), o = <usize>count(O_TRAY) << 3, x0 = P(X0) + o, x1 = P(X1) + o, dx = P(DX) + o, v = P(V1);
  for (let k = 0; k < n; k++) {
    const p = delivered(k, f(x1, k), f(v, int(P(TR_NODE), k)));
    const u0 = f(x0, n + k);
    const du0 = f(dx, n + k);
    const foreseen = u0 + 2 * q * du0;
    put(x1, n + k, u0 + q * (du0 + traySlope(k, p, foreseen)));
  }
}

function addTrays(rhs: usize, guess: usize, damped: bool): void {
  const n = count(N_TRAY), x1 = P(X1) + (<usize>count(O_TRAY) << 3);
  for (let k = 0; k < n; k++) {
    const node = int(P(TR_NODE), k);
    const at = trayBusCurrent(k, f(x1, k), f(guess, node));
    const i: f64 = damped ? (at + f(P(TR_CURRENT), k)) / 2 : at;
    put(P(TR_CURRENT), k, i);
    add(rhs, node, i);
  }
}

function mismatchTrays(): f64 {
  const n = count(N_TRAY), x1 = P(X1) + (<usize>count(O_TRAY) << 3), v = P(V1);
  let worst: f64 = 0;
  for (let k = 0; k < n; k++) {
    const d = trayBusCurrent(k, f(x1, k), f(v, int(P(TR_NODE), k))) - f(P(TR_CURRENT), k);
    if (d > worst) worst = d;
    else if (-d > worst) worst = -d;
  }
  return worst;
}

// ---------------------------------------------------------------- sleds

// @ts-ignore: decorator
@inline function sledCurrent(k: i32, power: f64, v: f64): f64 {
  const Vcc = f(P(SL_VCC), k);
  const a = f(P(SL_CC), k);
  const at = v > Vcc ? v : Vcc;
  const i = a > 0 ? power * ((1 - a) / at + a / f(P(SL_VN), k)) : power / at;
  return (v > Vcc ? i : (i * v) / Vcc) + f(P(SL_SHORT), k) * v;
}

function flowSleds(): void {
  const n = count(N_SLED), o = <usize>count(O_SLED) << 3, x = P(X0) + o, dx = P(DX) + o;
  for (let k = 0; k < n; k++) put(dx, k, (f(P(SL_D0), k) * f(P(SL_ALLOWED), k) - f(x, k)) / f(P(SL_LAG), k));
}

function beginSleds(rung: usize, q: f64): void {
  const n = count(N_SLED), o = <usize>count(O_SLED) << 3, x0 = P(X0) + o, x1 = P(X1) + o, dx = P(DX) + o;
  const kappa = R(rung, R_SLED);
  for (let k = 0; k < n; k++) {
    put(x1, k, (f(x0, k) + q * f(dx, k) + f(kappa, k) * f(P(SL_D1), k) * f(P(SL_ALLOWED), k)) / (1 + f(kappa, k)));
  }
}

function addSleds(rhs: usize, guess: usize, damped: bool): void {
  const n = count(N_SLED), x1 = P(X1) + (<usize>count(O_SLED) << 3);
  for (let k = 0; k < n; k++) {
    const node = int(P(SL_NODE), k);
    const v = f(guess, node);
    const at = sledCurrent(k, f(x1, k), v) + f(P(SL_CARRIED), k) * v;
    const i: f64 = damped ? (at + f(P(SL_CURRENT), k)) / 2 : at;
    put(P(SL_CURRENT), k, i);
    sub(rhs, node, i);
  }
}

function mismatchSleds(): f64 {
  const n = count(N_SLED), x1 = P(X1) + (<usize>count(O_SLED) << 3);
  let worst: f64 = 0;
  for (let k = 0; k < n; k++) {
    const v = f(P(V1), int(P(SL_NODE), k));
    const d = sledCurrent(k, f(x1, k), v) + f(P(SL_CARRIED), k) * v - f(P(SL_CURRENT), k);
    if (d > worst) worst = d;
    else if (-d > worst) worst = -d;
  }
  return worst;
}

// ---------------------------------------------------------------- packs, sensor

function openCircuit(k: i32, z: f64): f64 {
  const at = P(PK_OCV), o = 5 * k;
  if (z < 0.1) return f(at, o) + (f(at, o + 1) - f(at, o)) * (z / 0.1);
  if (z < 0.5) return f(at, o + 1) + (f(at, o + 2) - f(at, o + 1)) * ((z - 0.1) / 0.4);
  if (z < 0.9) return f(at, o + 2) + (f(at, o + 3) - f(at, o + 2)) * ((z - 0.5) / 0.4);
  return f(at, o + 3) + (f(at, o + 4) - f(at, o + 3)) * ((z - 0.9) / 0.1);
}

// @ts-ignore: decorator
@inline function packPower(k: i32, x: usize, v: usize): f64 {
  const s = count(FIRST_PACK) + k;
  const vs = f(v, int(P(ST_NODE), s));
  return (vs > 0 ? vs : 0) * f(x, count(O_STAGE) + s);
}

function packCurrent(k: i32, p: f64, z: f64, v1: f64): f64 {
  const eta = f(P(PK_ETA), k);
  const pack = p > 0 ? p / eta : p * eta;
  const U = openCircuit(k, z) - v1;
  const root = U * U - 4 * f(P(PK_R0), k) * pack;
  return (2 * pack) / (U + (root > 0 ? sqrt(root) : 0));
}

function flowPacks(): void {
  const n = count(N_PACK), o = <usize>count(O_PACK) << 3, x = P(X0) + o, dx = P(DX) + o;
  for (let k = 0; k < n; k++) {
    const v1 = f(x, n + k);
    const i = packCurrent(k, packPower(k, P(X0), P(V0)), f(x, k), v1);
    const R1 = f(P(PK_R1), k);
    const heat = f(P(PK_R0), k) * i * i + (v1 * v1) / R1;
    put(dx, k, -i / f(P(PK_Q), k));
    put(dx, n + k, (R1 * i - v1) / f(P(PK_TAU1), k));
    put(dx, 2 * n + k, (f(P(PK_RTH), k) * heat - (f(x, 2 * n + k) - f(P(PK_TA), k))) / f(P(PK_TTH), k));
  }
}

function finishPacks(q: f64): void {
  const n = count(N_PACK), o = <usize>count(O_PACK) << 3, x0 = P(X0) + o, x1 = P(X1) + o, dx = P(DX) + o;
  for (let k = 0; k < n; k++) {
    const z = f(x0, k) + 2 * q * f(dx, k);
    const u = f(x0, n + k) + 2 * q * f(dx, n + k);
    const T = f(x0, 2 * n + k) + 2 * q * f(dx, 2 * n + k);
    const i = packCurrent(k, packPower(k, P(X1), P(V1)), z, u);
    const R1 = f(P(PK_R1), k);
    const heat = f(P(PK_R0), k) * i * i + (u * u) / R1;
    put(x1, k, f(x0, k) + q * (f(dx, k) - i / f(P(PK_Q), k)));
    put(x1, n + k, f(x0, n + k) + q * (f(dx, n + k) + (R1 * i - u) / f(P(PK_TAU1), k)));
    put(x1, 2 * n + k, f(x0, 2 * n + k) + q * (f(dx, 2 * n + k) + (f(P(PK_RTH), k) * heat - (T - f(P(PK_TA), k))) / f(P(PK_TTH), k)));
  }
}

function sources(x: usize, v: usize): f64 {
  const n = count(N_STAGE), o = count(O_STAGE);
  let sum: f64 = 0;
  for (let k = 0; k < n; k++) sum += f(v, int(P(ST_NODE), k)) * f(x, o + k);
  return sum;
}

function trays(x: usize, v: usize): f64 {
  const n = count(N_TRAY), o = count(O_TRAY);
  let sum: f64 = 0;
  for (let k = 0; k < n; k++) sum += delivered(k, f(x, o + k), f(v, int(P(TR_NODE), k)));
  return sum;
}

function flowSensor(): void {
  const o = count(O_SENSOR);
  const corner = f(P(SENSOR), 0);
  put(P(DX), o, corner * (sources(P(X0), P(V0)) - f(P(X0), o)));
  put(P(DX), o + 1, corner * (trays(P(X0), P(V0)) - f(P(X0), o + 1)));
}

function finishSensor(rung: usize, q: f64): void {
  const o = count(O_SENSOR);
  const k = f(R(rung, R_SENSOR), 0);
  put(P(X1), o, (f(P(X0), o) + q * f(P(DX), o) + k * sources(P(X1), P(V1))) / (1 + k));
  put(P(X1), o + 1, (f(P(X0), o + 1) + q * f(P(DX), o + 1) + k * trays(P(X1), P(V1))) / (1 + k));
}

// ---------------------------------------------------------------- nodal matrix

function isStale(rung: usize): bool {
  const n = count(N_STAGE), linear = R(rung, R_LINEAR);
  for (let k = 0; k < n; k++) if (byte(linear, k) != (byte(P(ST_MODE), k) == 0 ? 1 : 0)) return true;
  return false;
}

/** Factors the rung's stamped matrix with the stages' present admittances. */
export function factor(rung: usize): void {
  const n = count(N_NODE), nStage = count(N_STAGE);
  const d = R(rung, R_D), l = R(rung, R_L), linear = R(rung, R_LINEAR), g = R(rung, R_ST + 11);
  const start = P(START), target = P(TARGET), position = P(POSITION);
  memory.copy(d, R(rung, R_DIAGONAL), <usize>n << 3);
  memory.copy(l, R(rung, R_BELOW), <usize>count(N_ENTRY) << 3);
  for (let k = 0; k < nStage; k++) {
    const isLinear = byte(P(ST_MODE), k) == 0;
    const y: f64 = isLinear ? f(g, k) : 0;
    put(P(ST_G), k, y);
    store<u8>(linear + <usize>k, isLinear ? 1 : 0);
    add(d, int(position, int(P(ST_NODE), k)), y);
  }
  let t = 0;
  for (let j = 0; j < n; j++) {
    const inverse = 1 / f(d, j);
    const first = int(start, j), end = int(start, j + 1);
    for (let p = first; p < end; p++) {
      const lp = f(l, p) * inverse;
      for (let r = p; r < end; r++) {
        const product = lp * f(l, r);
        const place = int(target, t++);
        if (place < 0) sub(d, -1 - place, product);
        else sub(l, place, product);
      }
    }
    for (let p = first; p < end; p++) put(l, p, f(l, p) * inverse);
    put(d, j, inverse);
  }
  factorisations += 1;
}

function solve(rung: usize): void {
  const n = count(N_NODE);
  const d = R(rung, R_D), l = R(rung, R_L), y = P(Y), v = P(V1), rhs = P(RHS);
  const start = P(START), row = P(ROW), node = P(NODE);
  for (let j = 0; j < n; j++) put(y, j, f(rhs, int(node, j)));
  let p = 0;
  for (let j = 0; j < n; j++) {
    const yj = f(y, j);
    const end = int(start, j + 1);
    for (; p < end; p++) sub(y, int(row, p), f(l, p) * yj);
    put(y, j, yj * f(d, j));
  }
  for (let j = n - 1; j >= 0; j--) {
    let s = f(y, j);
    const end = int(start, j + 1);
    for (let r = int(start, j); r < end; r++) s -= f(l, r) * f(y, int(row, r));
    put(y, j, s);
    put(v, int(node, j), s);
  }
}

// ---------------------------------------------------------------- the step

/**
 * A step of h = 2 q on a prepared rung; `along`: ratio of this step to the last, 0 after a jump. `shortest`: it stands even unsettled.
 * 0 done, 1 cycled, 2 not finite, 3 unsettled.
 */
export function step(rung: usize, h: f64, along: f64, shortest: i32): i32 {
  const q = h / 2;
  const n = count(N_NODE);
  const v0 = P(V0), v1 = P(V1), guess = P(GUESS), vPast = P(VPAST), rhs = P(RHS), fixed = P(FIXED);
  const bytes = <usize>n << 3;
  for (let k = 0; k < n; k++) put(guess, k, f(v0, k) + along * (f(v0, k) - f(vPast, k)));
  flowBanks();
  flowIntakes();
  foresee(h);
  flowStages();
  flowTrays();
  flowSleds();
  flowPacks();
  flowSensor();
  beginTrays(rung, q);
  beginSleds(rung, q);
  memory.fill(fixed, 0, bytes);
  beginBars(fixed, rung, q);
  beginCapacitors(fixed, rung, q);
  beginBanks(fixed, rung, q);
  beginStages(rung, q);
  let expected = guess;
  let settled = false;
  const most: i32 = shortest ? MOST_SOLVES + DAMPED_SOLVES : MOST_SOLVES;
  for (let pass: i32 = 0; pass < most && !settled; pass++) {
    const damped = pass >= MOST_SOLVES;
    if (isStale(rung)) factor(rung);
    memory.copy(rhs, fixed, bytes);
    addStages(rhs, rung, q);
    addTrays(rhs, expected, damped);
    addSleds(rhs, expected, damped);
    solve(rung);
    solves += 1;
    expected = v1;
    settled = !finishStages(rung, q) && !(mismatchTrays() > TOLERANCE) && !(mismatchSleds() > TOLERANCE);
  }
  if (!settled && !shortest) return 1;
  let surprise: f64 = 0;
  let sum: f64 = 0;
  let lowest: f64 = f64.MAX_VALUE;
  let highest: f64 = -f64.MAX_VALUE;
  for (let k = 0; k < n; k++) {
    const v = f(v1, k);
    sum += v;
    if (v < lowest) lowest = v;
    if (v > highest) highest = v;
    const g = f(guess, k);
    const d = v > g ? v - g : g - v;
    if (d > surprise) surprise = d;
  }
  if (sum - sum != 0) return 2;
  store<f64>(RESULT, surprise);
  store<f64>(RESULT + 8, lowest);
  store<f64>(RESULT + 16, solves);
  store<f64>(RESULT + 24, factorisations);
  store<f64>(RESULT + 32, highest);
  finishBars(rung);
  finishCapacitors(rung);
  finishBanks(rung, q);
  finishIntakes(rung, q);
  finishTrays(q);
  finishPacks(q);
  finishSensor(rung, q);
  return settled ? 0 : 3;
}

/** Makes the end of the step the present. */
export function accept(): void {
  const nodes = <usize>count(N_NODE) << 3;
  memory.copy(P(VPAST), P(V0), nodes);
  memory.copy(P(V0), P(V1), nodes);
  memory.copy(P(X0), P(X1), <usize>count(N_STATE) << 3);
  memory.copy(P(SL_D0), P(SL_D1), <usize>count(N_SLED) << 3);
}

// ---------------------------------------------------------------- what looks on (src/engine/gauge.ts and meters/)

// @ts-ignore: decorator
@inline function acLoss(k: i32, p: f64): f64 {
  if (!byte(P(IN_PRESENT), k)) return 0;
  return f(P(IN_ACA), k) + (f(P(IN_ACB), k) + f(P(IN_ACC), k) * p) * p;
}

// @ts-ignore: decorator
@inline function trayCurrent(k: i32, p: f64, u: f64): f64 {
  const r = f(P(TR_R), k);
  const standing: f64 = byte(P(TR_ALIVE), k) ? f(P(TR_P0), k) : 0;
  const eta = f(P(TR_ETA), k);
  const root = u * u - 4 * r * ((p > 0 ? p / eta : p * eta) + standing);
  return root > 0 ? (u - sqrt(root)) / (2 * r) : u / (2 * r);
}

/** Where the gauge has put the trays' currents and the sleds' powers. */
let trayCurrents: usize = 0;
let sledPowers: usize = 0;

function gauge(smoothed: f64): void {
  const x = P(X1), v = P(V1);
  let out = P(VALUES);
  const nodes = count(N_NODE);
  memory.copy(out, v, <usize>nodes << 3);
  out += <usize>nodes << 3;
  const shown = count(N_SHOWN), index = P(SHOWN), oBar = count(O_BAR);
  for (let k = 0; k < shown; k++) put(out, k, f(x, oBar + int(index, k)));
  out += <usize>shown << 3;
  const n = count(N_INTAKE), node = P(ST_NODE), oStage = count(O_STAGE), oIn = count(O_INTAKE);
  let shelves: f64 = 0;
  for (let k = 0; k < n; k++) {
    const i = f(x, oStage + k);
    put(out, k, i);
    shelves += i * f(v, int(node, k));
  }
  out += <usize>n << 3;
  for (let k = 0; k < n; k++) put(out, k, f(x, oIn + k));
  out += <usize>n << 3;
  memory.copy(out, P(ST_TRIM), <usize>n << 3);
  out += <usize>n << 3;
  let ac: f64 = 0;
  let line: f64 = 0;
  for (let k = 0; k < n; k++) {
    const p = f(x, oIn + 2 * n + k);
    const pAc = p * f(P(IN_M1), k) + acLoss(k, p);
    put(out, k, pAc);
    ac += pAc;
    line += pAc / f(P(IN_LINE), k);
  }
  out += <usize>n << 3;
  const t = count(N_TRAY), oTray = count(O_TRAY);
  const trayPowers = out;
  let given: f64 = 0;
  for (let k = 0; k < t; k++) {
    const p = delivered(k, f(x, oTray + k), f(v, int(P(TR_NODE), k)));
    put(out, k, p);
    given += p;
  }
  out += <usize>t << 3;
  for (let k = 0; k < t; k++) {
    const u = f(x, oTray + t + k);
    const kv = f(P(TR_KV), k);
    const energy = f(P(TR_C0), k) * u * u * ((1 - kv) / 2 + (kv * u) / (3 * f(P(TR_VR), k)));
    put(out, k, (energy - f(P(TR_LOWJ), k)) / f(P(TR_WINDOWJ), k));
  }
  out += <usize>t << 3;
  for (let k = 0; k < t; k++) put(out, k, f(x, oTray + t + k));
  out += <usize>t << 3;
  trayCurrents = out;
  for (let k = 0; k < t; k++) put(out, k, trayCurrent(k, f(trayPowers, k), f(x, oTray + t + k)));
  out += <usize>t << 3;
  const b = count(N_BANK), oBank = count(O_BANK);
  for (let k = 0; k < b; k++) put(out, k, f(x, oBank + k));
  out += <usize>b << 3;
  const m = count(N_PACK), first = count(FIRST_PACK), oPack = count(O_PACK);
  let batteries: f64 = 0;
  for (let k = 0; k < m; k++) {
    const i = f(x, oStage + first + k);
    put(out, k, i);
    batteries += i * f(v, int(node, first + k));
  }
  out += <usize>m << 3;
  for (let k = 0; k < m; k++) put(out, k, f(x, oPack + k));
  out += <usize>m << 3;
  const sleds = count(N_SLED), oSled = count(O_SLED);
  let load: f64 = 0;
  sledPowers = out;
  for (let k = 0; k < sleds; k++) {
    const at = int(P(SL_NODE), k);
    const power = sledCurrent(k, f(x, oSled + k), f(v, at)) * f(v, at);
    put(out, k, power);
    load += power;
  }
  out += <usize>sleds << 3;
  put(out, 0, load);
  put(out, 1, shelves);
  put(out, 2, given);
  put(out, 3, batteries);
  put(out, 4, load - shelves - given - batteries);
  put(out, 5, ac);
  put(out, 6, line);
  put(out, 7, smoothed);
}

function widen(tick: f64): void {
  const n = count(N_CHANNEL), values = P(VALUES), low = P(REC_LOW), high = P(REC_HIGH);
  for (let c = 0; c < n; c++) {
    const value = f(values, c);
    if (value < f(low, c)) {
      put(low, c, value);
      put(P(REC_LOWTICK), c, tick);
    }
    if (value > f(high, c)) {
      put(high, c, value);
      put(P(REC_HIGHTICK), c, tick);
    }
  }
}

function meanSquares(width: f64): void {
  const n = count(N_MS), index = P(MS_INDEX), past = P(MS_PAST), sum = P(MS_SUM), square = P(MS_SQUARE), values = P(VALUES);
  for (let c = 0; c < n; c++) {
    const a = f(past, c);
    const b = f(values, int(index, c));
    add(sum, c, width * (a + b));
    add(square, c, width * (a * a + a * b + b * b));
    put(past, c, b);
  }
}

function audit(h: f64, opening: f64): void {
  const x0 = P(X0), x1 = P(X1), v0 = P(V0), v1 = P(V1);
  const nBar = count(N_BAR), oBar = count(O_BAR), bar = P(AU_BAR), barR = P(BAR_R), open = P(BAR_OPEN);
  for (let k = 0; k < nBar; k++) {
    const i = (f(x0, oBar + k) + f(x1, oBar + k)) / 2;
    if (byte(open, k)) {
      const from = int(P(BAR_FROM), k), to = int(P(BAR_TO), k);
      const across = (f(v0, from) + f(v1, from) - f(v0, to) - f(v1, to)) / 2;
      add(bar, k, h * i * (across + (f(P(BAR_L), k) * i) / opening));
    } else add(bar, k, h * f(barR, k) * i * i);
  }
  const nCap = count(N_CAP), oCap = count(O_CAP), cap = P(AU_CAP), capNode = P(CAP_NODE);
  for (let k = 0; k < nCap; k++) {
    const n = int(capNode, k);
    const drop = (f(v0, n) + f(v1, n) - f(x0, oCap + k) - f(x1, oCap + k)) / 2;
    add(cap, k, h * drop * drop);
  }
  const nBank = count(N_BANK), oBank = count(O_BANK);
  for (let k = 0; k < nBank; k++) {
    const i = (f(x0, oBank + k) + f(x1, oBank + k)) / 2;
    add(P(AU_BANK), k, h * f(P(BANK_R), k) * i * i);
  }
  const nIn = count(N_INTAKE), oIn = count(O_INTAKE), oStage = count(O_STAGE), node = P(ST_NODE);
  for (let k = 0; k < nIn; k++) {
    const n = int(node, k);
    const i = (f(x0, oStage + k) + f(x1, oStage + k)) / 2;
    const out = (i * (f(v0, n) + f(v1, n))) / 2;
    add(P(AU_DC), k, h * ((f(P(IN_DC0), k) + f(P(IN_DC1), k)) / 2 - out));
    const p0 = f(x0, oIn + 2 * nIn + k), p1 = f(x1, oIn + 2 * nIn + k);
    const lost = (acLoss(k, p0) + acLoss(k, p1)) / 2;
    add(P(AU_AC), k, h * lost);
    add(P(AU_INPUT), k, h * ((p0 * f(P(IN_M0), k) + p1 * f(P(IN_M1), k)) / 2 + lost));
  }
  const t = count(N_TRAY), oTray = count(O_TRAY);
  for (let k = 0; k < t; k++) {
    const n = int(P(TR_NODE), k);
    const p0 = delivered(k, f(x0, oTray + k), f(v0, n)), p1 = delivered(k, f(x1, oTray + k), f(v1, n));
    const u0 = f(x0, oTray + t + k), u1 = f(x1, oTray + t + k);
    const i0 = f(P(AU_TRAYPAST), k), i1 = f(trayCurrents, k);
    put(P(AU_TRAYPAST), k, i1);
    const r = f(P(TR_R), k);
    const terminal = (u0 * i0 + u1 * i1 - r * (i0 * i0 + i1 * i1)) / 2;
    add(P(AU_CONVERTER), k, h * (terminal - (p0 + p1) / 2));
    add(P(AU_ESR), k, (h * r * (i0 * i0 + i1 * i1)) / 2);
    add(P(AU_LEAK), k, (h * f(P(TR_LEAK), k) * (u0 + u1)) / 2);
  }
  const m = count(N_PACK), first = count(FIRST_PACK);
  for (let k = 0; k < m; k++) {
    const s = first + k;
    const n = int(node, s);
    const p = ((f(x0, oStage + s) + f(x1, oStage + s)) / 2) * ((f(v0, n) + f(v1, n)) / 2);
    const at = count(O_PACK);
    const z = f(x1, at + k);
    const given0 = f(P(AU_PACKPAST), k);
    const given1 = openCircuit(k, z) * packCurrent(k, packPower(k, x1, v1), z, f(x1, at + m + k));
    put(P(AU_PACKPAST), k, given1);
    add(P(AU_PACK), k, h * ((given0 + given1) / 2 - p));
  }
  const sleds = count(N_SLED);
  for (let k = 0; k < sleds; k++) {
    const n = int(P(SL_NODE), k);
    const v = f(v1, n), shorted = f(P(SL_SHORT), k);
    const P0 = f(P(AU_SLEDPAST), k), P1 = f(sledPowers, k) - shorted * v * v;
    put(P(AU_SLEDPAST), k, P1);
    const mean = (f(v0, n) + v) / 2;
    add(P(AU_LOAD), k, (h * (P0 + P1)) / 2 + h * shorted * mean * mean);
  }
}

/**
 * Looks at the step just taken, before it is accepted: reads every channel, widens the recorder's bucket and,
 * when the step is judged, feeds the mean squares and the audit. 1: a node has crossed a level of its stays.
 */
export function look(ticks: f64, tick1: f64, h: f64, judged: i32, smoothed: f64, opening: f64): i32 {
  gauge(smoothed);
  widen(tick1);
  if (!judged) return 0;
  meanSquares(ticks);
  audit(h, opening);
  const n = count(N_NODE), v = P(V1), low = P(STAY_LOW), high = P(STAY_HIGH);
  for (let k = 0; k < n; k++) if (f(v, k) < f(low, k) || f(v, k) >= f(high, k)) return 1;
  return 0;
}

// directory of a set of bins (src/engine/meters/bins.ts): channels, width; then index, a, b, sum, finished, end
const B_CHANNELS = 0, B_WIDTH = 1, B_INDEX = 2, B_A = 3, B_B = 4, B_SUM = 5, B_FINISHED = 6, B_END = 7;

// @ts-ignore: decorator
@inline function widenBin(n: i32, sum: usize, a: usize, b: usize, from: f64, to: f64, tick0: f64, tick1: f64): void {
  const along = ((from + to) / 2 - tick0) / (tick1 - tick0);
  for (let c = 0; c < n; c++) add(sum, c, (to - from) * (f(a, c) + along * (f(b, c) - f(a, c))));
}

/** Feeds one set of bins with the step just looked at; returns how many bins it finished. */
export function bin(set: usize, tick0: f64, tick1: f64): i32 {
  const n = <i32>R(set, B_CHANNELS);
  const width = <f64>R(set, B_WIDTH);
  const index = R(set, B_INDEX), a = R(set, B_A), b = R(set, B_B), sum = R(set, B_SUM), end = R(set, B_END);
  const values = P(VALUES);
  memory.copy(a, b, <usize>n << 3);
  for (let c = 0; c < n; c++) put(b, c, f(values, int(index, c)));
  let from = tick0;
  let until = f(end, 0);
  let done = 0;
  let row = R(set, B_FINISHED);
  while (tick1 >= until) {
    widenBin(n, sum, a, b, from, until, tick0, tick1);
    for (let c = 0; c < n; c++) {
      put(row, c, f(sum, c) / width);
      put(sum, c, 0);
    }
    row += <usize>n << 3;
    done++;
    from = until;
    until += width;
  }
  put(end, 0, until);
  if (from < tick1) widenBin(n, sum, a, b, from, tick1, tick0, tick1);
  return done;
}
