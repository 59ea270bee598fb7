/**
 * A rim-braked wheel on a drum: what the brake puts in, where the heat goes, and what gives way.
 *
 * Brake. A controller keeps the power: force = power / speed, built up within 2 s, with a slow hunting (triangle wave,
 * ±1.2 %). Nine tenths of the power go into the two tracks, slightly more into one of them, the rest into the pads.
 *
 * Heat. Lumped: each track, the flanges with the tyre bed, the gas in the tyre, the pads.
 *
 *     C dT/dt = heat in − h (T − room) − conduction to the next
 *
 * With the values below the tracks settle within a few minutes at about 0.29 K/W above the room, the flanges at three
 * quarters of that. Without the air stream all but the conduction falls to a third.
 *
 * Tyre. Gas of constant volume: absolute pressure grows with absolute temperature.
 *
 * End. The flange softens at a temperature drawn for each rim, opens, and lets the tyre go; or the tube lets go at a
 * temperature drawn for each tube; or, of a softer resin, the tracks themselves melt and the flange goes with them. The
 * pressure then falls as dP/dt = −P/τ, the brake opens, the drum coasts down.
 *
 * Temperatures in °C, pressures gauge in kPa, times in s, speeds in km/h, forces at the tread in N.
 */

const ATMOSPHERE = 101.3;
const ICE = 273.15;
const STEP = 0.05;

const INTO_TRACKS = 0.9;
/** J/K of one track, the flanges and bed, the gas with tube and tyre, the two pads. */
const HEAT_CAPACITY = { track: 110, flange: 300, gas: 90, pads: 45 };
/** W/K to the air stream. */
const TO_AIR = { track: 1.15, flange: 0.9, gas: 0.35, pads: 0.42 };
/** W/K from one track to the flanges, from the flanges to the gas. */
const CONDUCTION = { track: 1.5, gas: 0.25 };
const STILL_AIR = 1 / 3;

const SPIN_UP = 12;
const LEAD_IN = 20;
const BRAKE_BUILDS = 2;
const BRAKE_OPENS = 1.5;
const COAST_DOWN = 10;
const HUNTING = 0.012;
const HUNTING_PERIOD = 17;
const COOL_BELOW = 32;
const WIDTH_TAKES = 150;
const LEAD_OUT = 60;
/** km/h a second. */
const BLOWER_STOPS = 4;
/** τ of the pressure, s. */
const FLANGE_LEAKS = 0.15;
const TUBE_LEAKS = 0.4;

/**
 * @typedef {object} DragStage
 * @property {number} power W
 * @property {number} duration s
 */

/**
 * @typedef {object} Drag
 * @property {DragStage[]} stages
 * @property {number} speed km/h, of drum and air stream
 * @property {number} room °C
 * @property {number} pressure at the start
 * @property {number} leftShare of the heat into the tracks
 * @property {number} [softensAt] temperature of the flange
 * @property {number} [tubeGoesAt] temperature of the bed
 * @property {number} [tracksMeltAt] temperature of the hotter track
 * @property {number} [stopsAt] temperature of the hotter track at which the rig ends the drag
 * @property {{ stage: number, after: number }} [blowerTrips] index of the stage, s after its begin
 */

/**
 * @typedef {object} Dragged
 * @property {Record<'speed' | 'force' | 'left' | 'right' | 'pads' | 'air' | 'room' | 'pressure', number[]>} samples
 * @property {{ from: number, to: number }[]} stages from the first turn of the drum to the end of braking, s
 * @property {'programme ended' | 'flange opened' | 'tracks molten' | 'rig stopped' | 'tube went' | 'blower tripped'} ended
 * @property {number} energy J
 */

/**
 * The programme from the first turn of the drum until a minute after its end, sample by sample.
 * @param {Drag} drag
 * @param {number} rate samples per second
 * @returns {Dragged}
 */
export function dragged(drag, rate) {
  const every = Math.round(1 / rate / STEP);
  const samples = {
    speed: /** @type {number[]} */ ([]),
    force: /** @type {number[]} */ ([]),
    left: /** @type {number[]} */ ([]),
    right: /** @type {number[]} */ ([]),
    pads: /** @type {number[]} */ ([]),
    air: /** @type {number[]} */ ([]),
    room: /** @type {number[]} */ ([]),
    pressure: /** @type {number[]} */ ([]),
  };
  const { room, speed: full, softensAt, tubeGoesAt, tracksMeltAt, stopsAt, blowerTrips } = drag;
  const warmth = { left: room, right: room, flange: room, gas: room, pads: room };
  const hotter = () => Math.max(warmth.left, warmth.right);
  const stages = [{ from: 0, to: 0 }];
  let [speed, force, air, energy] = [0, 0, full, 0];
  let [index, since] = [0, 0];
  let phase = /** @type {'lead-in' | 'braking' | 'cooling' | 'over'} */ ('lead-in');
  let ended = /** @type {Dragged['ended']} */ ('programme ended');
  /** Share of the pressure still there, and the seconds in which it leaves once something has let go. */
  let [kept, leaving] = [1, Number.POSITIVE_INFINITY];

  for (let step = 0; ; step++) {
    const time = step * STEP;
    const enter = (/** @type {typeof phase} */ next) => {
      const last = stages.at(-1);
      if (phase === 'braking' && last) last.to = time;
      if (next === 'lead-in') stages.push({ from: time, to: time });
      phase = next;
      since = 0;
    };
    const letGo = (/** @type {Dragged['ended']} */ how, /** @type {number} */ within) => {
      ended = how;
      leaving = within;
      enter('over');
    };
    if (step % every === 0) {
      samples.speed.push(speed);
      samples.force.push(force);
      samples.left.push(warmth.left);
      samples.right.push(warmth.right);
      samples.pads.push(warmth.pads);
      samples.air.push(air);
      samples.room.push(room);
      samples.pressure.push(gaugeAt(warmth.gas, drag) * kept);
    }
    since += STEP;

    const stage = /** @type {DragStage} */ (drag.stages[Math.min(index, drag.stages.length - 1)]);
    const built = stage.power / (full / 3.6);
    const turning = phase === 'lead-in' || phase === 'braking';
    const wanted = phase === 'braking' ? built * (1 + HUNTING * triangle(since / HUNTING_PERIOD)) : 0;
    speed += clamp((turning ? full : 0) - speed, (-full / COAST_DOWN) * STEP, (full / SPIN_UP) * STEP);
    force += clamp(wanted - force, (-built / BRAKE_OPENS) * STEP, (built / BRAKE_BUILDS) * STEP);
    const power = (force * speed) / 3.6;
    energy += power * STEP;
    warm(warmth, power, air > 1 ? 1 : STILL_AIR, drag);
    kept -= (kept / leaving) * STEP;

    if (phase === 'lead-in') {
      if (since >= LEAD_IN) enter('braking');
    } else if (phase === 'braking') {
      if (blowerTrips?.stage === index && since >= blowerTrips.after) air = Math.max(0, air - BLOWER_STOPS * STEP);
      if (softensAt !== undefined && warmth.flange >= softensAt) letGo('flange opened', FLANGE_LEAKS);
      else if (tubeGoesAt !== undefined && warmth.flange >= tubeGoesAt) letGo('tube went', TUBE_LEAKS);
      else if (tracksMeltAt !== undefined && hotter() >= tracksMeltAt) letGo('tracks molten', FLANGE_LEAKS);
      else if (stopsAt !== undefined && hotter() >= stopsAt) {
        ended = 'rig stopped';
        enter('over');
      } else if (air <= 0) {
        ended = 'blower tripped';
        enter('over');
      } else if (since >= stage.duration) {
        index++;
        enter(index < drag.stages.length ? 'cooling' : 'over');
      }
    } else if (phase === 'cooling') {
      const cold = hotter() < COOL_BELOW;
      if (cold && since >= COAST_DOWN + WIDTH_TAKES) enter('lead-in');
    } else if (since >= LEAD_OUT) break;
  }
  return { samples, stages, ended, energy };
}

/**
 * One step of the heat balance.
 * @param {Record<'left' | 'right' | 'flange' | 'gas' | 'pads', number>} warmth changed in place
 * @param {number} power W
 * @param {number} blown 1 with the air stream
 * @param {Drag} drag
 */
function warm(warmth, power, blown, { room, leftShare }) {
  const { left, right, flange, gas, pads } = warmth;
  const toAir = (/** @type {number} */ temperature, /** @type {number} */ h) => h * blown * (temperature - room);
  const fromLeft = CONDUCTION.track * (left - flange);
  const fromRight = CONDUCTION.track * (right - flange);
  const toGas = CONDUCTION.gas * (flange - gas);
  const heat = INTO_TRACKS * power;
  warmth.left += ((leftShare * heat - toAir(left, TO_AIR.track) - fromLeft) / HEAT_CAPACITY.track) * STEP;
  warmth.right += (((1 - leftShare) * heat - toAir(right, TO_AIR.track) - fromRight) / HEAT_CAPACITY.track) * STEP;
  warmth.flange += ((fromLeft + fromRight - toAir(flange, TO_AIR.flange) - toGas) / HEAT_CAPACITY.flange) * STEP;
  warmth.gas += ((toGas - toAir(gas, TO_AIR.gas)) / HEAT_CAPACITY.gas) * STEP;
  warmth.pads += (((1 - INTO_TRACKS) * power - toAir(pads, TO_AIR.pads)) / HEAT_CAPACITY.pads) * STEP;
}

/** Gauge pressure of the closed tyre with its gas at this temperature. @param {number} gas @param {Drag} drag */
function gaugeAt(gas, { pressure, room }) {
  return ((pressure + ATMOSPHERE) * (gas + ICE)) / (room + ICE) - ATMOSPHERE;
}

/** A wave between −1 and 1. @param {number} turns */
function triangle(turns) {
  return 1 - 4 * Math.abs((turns % 1) - 0.5);
}

/** @param {number} value @param {number} low @param {number} high */
function clamp(value, low, high) {
  return Math.min(high, Math.max(low, value));
}
