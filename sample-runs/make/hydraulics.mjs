/**
 * The pressure in a rim on a water rig, from the vented start to the vented end.
 *
 * Pump. A positive-displacement pump turns at one speed: its flow q rises to `flow` within `spinUp`, with the ripple of
 * its strokes (a triangle wave, ±1.5 %).
 *
 * Compliance. Rim, tyre or bladder, hose and water take C(P) = C0 · (1 − s·P) mL/bar (they stiffen), and the air that
 * bleeding left behind takes V · pa / (P + pa)² on top (Boyle): dP/dt = q / C(P). So the ramp starts soft and
 * straightens once the air is small.
 *
 * Hold. Below the lower edge of a narrow band the pump tops up to its upper edge; a tyre creeps, so the pressure sinks
 * by a rate that fades.
 *
 * End. Where the pressure reaches the rim's or the tyre's strength, the water escapes: dP/dt = −P/τ, τ about 12 ms for
 * a broken rim and 25 ms for a tyre that leaves it. Where nothing lets go the pump stops, the pressure settles, and a
 * valve vents through an orifice: dP/dt = −k·√P, which ends at zero.
 *
 * All pressures are gauge, in bar; times in s; volumes in mL.
 */

/**
 * @typedef {object} Circuit
 * @property {number} flow mL/s of the pump
 * @property {number} compliance C0, mL/bar
 * @property {number} stiffening s, 1/bar
 * @property {number} trappedAir mL at ambient pressure
 */

/**
 * @typedef {object} Programme
 * @property {{ pressure: number, duration: number }} [hold] lower edge of the controller's band, and how long
 * @property {{ pressure: number, escape: number }} [letsGo] strength of what lets go first, and τ
 * @property {number} stopAt the rig stops by itself here
 * @property {number} [tripAt] the pump drive trips here: a rig fault
 */

const AMBIENT = 1.013;
const VENTED_START = 2.5;
const VENTED_END = 4;
const SPIN_UP = 0.6;
const STROKE_PERIOD = 0.62;
const STROKE_RIPPLE = 0.015;
const HOLD_BAND = 0.035;
const CREEP = 0.006;
const CREEP_FADES = 90;
const SETTLE = 3;
const ORIFICE = 1;
const SUBSTEPS = 10;

/**
 * True gauge pressure at each sample, and how it ended.
 *
 * @param {Circuit} circuit
 * @param {Programme} programme
 * @param {number} rate samples per second
 * @returns {{ pressures: number[], peak: number, ended: 'broke' | 'rig limit' | 'trip', heldFrom?: number, heldTo?: number }}
 */
export function pressurise(circuit, programme, rate) {
  const dt = 1 / rate / SUBSTEPS;
  const pressures = /** @type {number[]} */ ([]);
  /** @type {'vented' | 'pumping' | 'holding' | 'escaping' | 'settling' | 'venting' | 'empty'} */
  let phase = 'vented';
  /** @type {'broke' | 'rig limit' | 'trip'} */
  let ended = 'rig limit';
  let [pressure, peak, since] = [0, 0, 0];
  let held = false;
  let toppingUp = false;
  /** @type {number | undefined} */ let heldFrom;
  /** @type {number | undefined} */ let heldTo;

  for (let step = 0; ; step++) {
    const time = step * dt;
    if (step % SUBSTEPS === 0) pressures.push(pressure);
    const enter = (/** @type {typeof phase} */ next) => {
      phase = next;
      since = 0;
    };
    since += dt;

    if (phase === 'vented') {
      if (since >= VENTED_START) enter('pumping');
    } else if (phase === 'pumping') {
      pressure += (pumpFlow(circuit, since) / compliance(circuit, pressure)) * dt;
      const { hold, letsGo, stopAt, tripAt } = programme;
      if (letsGo && pressure >= letsGo.pressure) {
        ended = 'broke';
        enter('escaping');
      } else if (tripAt !== undefined && pressure >= tripAt) {
        ended = 'trip';
        enter('settling');
      } else if (pressure >= stopAt) enter('settling');
      else if (hold && !held && pressure >= hold.pressure + HOLD_BAND) {
        held = true;
        heldFrom = time;
        enter('holding');
      }
    } else if (phase === 'holding') {
      const { hold } = programme;
      if (!hold) throw new Error('holding without a hold');
      if (pressure <= hold.pressure) toppingUp = true;
      if (pressure >= hold.pressure + HOLD_BAND) toppingUp = false;
      pressure -= (CREEP / (1 + since / CREEP_FADES)) * dt;
      if (toppingUp) pressure += 0.02 * dt;
      if (since >= hold.duration) {
        heldTo = time;
        enter('pumping');
      }
    } else if (phase === 'escaping') {
      pressure -= (pressure / (programme.letsGo?.escape ?? 1)) * dt;
      if (since >= VENTED_END) break;
    } else if (phase === 'settling') {
      pressure -= 0.004 * dt;
      if (since >= SETTLE) enter('venting');
    } else if (phase === 'venting') {
      pressure = Math.max(0, pressure - ORIFICE * Math.sqrt(pressure) * dt);
      if (pressure === 0) enter('empty');
    } else if (since >= VENTED_END) break;
    if (pressure > peak) peak = pressure;
  }
  return {
    pressures,
    peak,
    ended,
    ...(heldFrom === undefined ? {} : { heldFrom }),
    ...(heldTo === undefined ? {} : { heldTo }),
  };
}

/** @param {Circuit} circuit @param {number} running */
function pumpFlow({ flow }, running) {
  const stroke = (running / STROKE_PERIOD) % 1;
  const triangle = 1 - 4 * Math.abs(stroke - 0.5);
  return flow * Math.min(1, running / SPIN_UP) * (1 + STROKE_RIPPLE * triangle);
}

/** @param {Circuit} circuit @param {number} pressure */
function compliance({ compliance, stiffening, trappedAir }, pressure) {
  const absolute = pressure + AMBIENT;
  return compliance * (1 - stiffening * pressure) + (trappedAir * AMBIENT) / (absolute * absolute);
}
