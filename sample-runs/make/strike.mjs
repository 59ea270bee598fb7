/**
 * A guided mass that falls on a wheel: what the cell in the striker feels, and what is left of the speed.
 *
 * Fall. Guides take a share of the weight: v = √(2 · g · (1 − friction) · h), and brake the rebound by as much. Two light
 * barriers just above the wheel time the carriage over the distance between them, on its way down and on its way up.
 *
 * Contact. Two masses, two springs. A rubber pad between striker and rim stiffens as it is pressed, and both pad and
 * wheel give back less than they take (Hunt and Crossley's form: damping grows with the spring force, so that contact
 * begins and ends without a jump):
 *
 *     F pad   = k · d^1.5 · (1 + λ · rate of d)      d: how far the striker runs ahead of the rim
 *     F wheel = K · (1 − damage) · x · (1 + Λ · rate of x)
 *     M dv/dt = M · g − F pad,   m dw/dt = F pad − F wheel
 *
 * Damage. Whenever the force in the wheel passes the next of its thresholds, the wheel loses a share of its stiffness
 * within a tenth of a millisecond: the force falls suddenly, as it does when plies part.
 *
 * Everything a file holds is integrated from these equations, so that force, speeds and energies agree as they would on
 * a rig. Lengths in m, speeds in m/s (downward), forces in N, times in s.
 */

export const GRAVITY = 9.815;
export const STRIKER_MASS = 10.4;
/** Between the two barriers, and from the lower one down to where contact begins. */
export const GATE = 0.02;
export const GATE_ABOVE_CONTACT = 0.004;
const BEFORE_CONTACT = 0.01;
/** Long enough to show that the carriage did not fall again within half a second. */
export const LONG_RECORD = 0.53;

const PAD = { stiffness: 5e7, damping: 0.4 };
const WHEEL = { mass: 0.06, stiffness: 1.7e6, damping: 0.2 };
const DAMAGE_TAKES = 1e-4;
const SUBSTEPS = 20;

/**
 * @typedef {object} Strike
 * @property {number} height m
 * @property {number} friction share of the weight that the guides take
 * @property {number} stiffness of the wheel, relative to the usual
 * @property {{ force: number, share: number }[]} [thresholds] N, and the share of stiffness then lost
 * @property {number} [record] how long the recorder runs, s
 */

/**
 * @typedef {object} Struck
 * @property {number[]} forces N at each sample, the record beginning before contact
 * @property {number} impactSpeed
 * @property {number} impactEnergy J
 * @property {number} gateTime between the two barriers
 * @property {number} reboundGateTime the same on the way up
 * @property {number} damage share of stiffness lost
 */

/** @param {Strike} strike @param {number} rate samples per second @returns {Struck} */
export function struck({ height, friction, stiffness, thresholds = [], record = LONG_RECORD }, rate) {
  const pull = GRAVITY * (1 - friction);
  const impactSpeed = Math.sqrt(2 * pull * height);
  const speedAt = (/** @type {number} */ above) => Math.sqrt(impactSpeed * impactSpeed - 2 * pull * above);
  const [upper, lower] = [speedAt(GATE + GATE_ABOVE_CONTACT), speedAt(GATE_ABOVE_CONTACT)];

  const dt = 1 / rate / SUBSTEPS;
  const forces = /** @type {number[]} */ ([]);
  let [x, v, rimX, rimV] = [-impactSpeed * BEFORE_CONTACT, impactSpeed, 0, 0];
  let [lost, toLose] = [0, 0];
  let next = 0;
  let [reboundSpeed, leftAt] = [0, 0];
  let caught = false;
  for (let step = 0; step < record * rate * SUBSTEPS; step++) {
    const pressed = x - rimX;
    const padForce =
      pressed > 0 ? Math.max(0, PAD.stiffness * pressed * Math.sqrt(pressed) * (1 + PAD.damping * (v - rimV))) : 0;
    const wheelForce = WHEEL.stiffness * stiffness * (1 - lost) * rimX * (1 + WHEEL.damping * rimV);
    if (step % SUBSTEPS === 0) forces.push(padForce);

    const threshold = thresholds[next];
    if (threshold && toLose === 0 && wheelForce >= threshold.force) {
      toLose += threshold.share * (1 - lost);
      next++;
    }
    const losing = Math.min(toLose, (0.2 * dt) / DAMAGE_TAKES);
    lost += losing;
    toLose -= losing;

    // Before contact the record shows a mass at its contact speed; the pull of the last centimetre is left out.
    if (step * dt >= BEFORE_CONTACT && !caught) v += (GRAVITY - padForce / STRIKER_MASS) * dt;
    rimV += ((padForce - wheelForce) / WHEEL.mass) * dt;
    x += v * dt;
    rimX += rimV * dt;
    if (padForce > 0) {
      reboundSpeed = -v;
      leftAt = x;
    }
    // The catcher holds the carriage on its way up.
    caught ||= v < 0 && pressed < -0.004;
    if (caught) v = 0;
  }
  const braked = GRAVITY * (1 + friction);
  const upAt = (/** @type {number} */ above) => Math.sqrt(reboundSpeed * reboundSpeed - 2 * braked * (above + leftAt));
  return {
    forces,
    impactSpeed,
    impactEnergy: 0.5 * STRIKER_MASS * impactSpeed * impactSpeed,
    gateTime: (lower - upper) / pull,
    reboundGateTime: (upAt(GATE_ABOVE_CONTACT) - upAt(GATE_ABOVE_CONTACT + GATE)) / braked,
    damage: lost,
  };
}
