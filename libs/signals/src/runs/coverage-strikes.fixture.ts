import { characteristic } from './burst-columns.fixture.js';
import { budgeted, calibrated, certificate, covering, Draw, type Told, told } from './coverage-draw.fixture.js';
import {
  ABOVE,
  GATE,
  GRAVITY,
  IMPACT_METHOD,
  type ImpactInvention,
  inventedImpactRun,
  MASS,
  measured,
  PULSE,
  RESTITUTION,
  strikeOf,
} from './invented-impact.fixture.js';
import { calibration } from './invented-run.fixture.js';
import { readRun } from './read-run.js';
import { numberOf } from './reading.fixture.js';

/** Standard uncertainty of the force at the peak, N. */
const FORCE_U = 80;
const FORCE = covering(certificate('strikerForce'));

/** What every strike below is written with: its force off by its calibration, in proportion, since its zero is taken off. */
function strikeInput(
  draw: Draw,
  { noise, rate, energy, peak }: { noise: number; rate: number; energy: number; peak: number },
  over: Partial<ImpactInvention>,
) {
  const reads = 1 + (FORCE_U * draw.normal()) / peak;
  const { force = (newtons: number) => newtons } = over;
  return inventedImpactRun({
    rate,
    noise,
    seed: draw.seed(),
    seconds: 0.03,
    energies: [energy],
    calibrations: [calibration('S-F', { unit: 'N', expandedUncertainty: 2 * FORCE_U, k: 2 })],
    // By integration of the force, not by the gate.
    measurements: (all) => all.filter(({ of }) => of !== 'reboundGateTime'),
    ...over,
    force: (...given) => reads * (force(...given) ?? 0),
  });
}

/**
 * Walked back through noise to where the force stood at zero, contact begins as many samples early as readings above zero
 * happen to follow one another: n of them with probability 2⁻ⁿ⁻¹, whose root mean square is √3.
 */
const CONTACT_EARLY = Math.sqrt(3);
/** In slower records that moment, which errs to one side, outweighs the force in a deflection: no symmetric interval fits it. */
const FAST = 200_000;

/** A half-sine strike. */
export function strikeOfKnownTruth(seed: number, { noise, rate }: { noise: number; rate: number }): Told[] {
  const draw = new Draw(seed);
  const energy = draw.between(38, 42);
  const strike = strikeOf(energy);
  const forceBudget = calibrated('strikerForce');
  const { reading } = readRun(
    strikeInput(
      draw,
      { noise, rate, energy, peak: strike.peak },
      {
        method: {
          characteristics: [
            ...budgeted(IMPACT_METHOD.characteristics, {
              peakForce: forceBudget,
              impulse: forceBudget,
              absorbedEnergy: forceBudget,
              ...(rate < FAST
                ? {}
                : {
                    maximumDeflection: covering(certificate('strikerForce'), {
                      from: 'standard',
                      name: 'moment of contact',
                      u: (CONTACT_EARLY * 1000 * strike.speed) / rate,
                      unit: 'mm',
                    }),
                  }),
              reboundSpeed: FORCE,
            }),
            { ...characteristic('restitution', 'ratio', '1'), uncertainty: FORCE },
          ],
        },
      },
    ),
  );
  return told(reading, {
    peakForce: strike.peak / 1000,
    impulse: strike.impulse,
    absorbedEnergy: strike.absorbed,
    ...(rate < FAST ? {} : { maximumDeflection: 1000 * deepest(strike) }),
    reboundSpeed: strike.rebound,
    restitution: RESTITUTION,
  });
}

/** Deflection where the speed of the closed form is zero, by halving. */
function deepest({ velocity, deflection }: ReturnType<typeof strikeOf>): number {
  let [low, high] = [0, PULSE];
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    if (velocity(middle) > 0) low = middle;
    else high = middle;
  }
  return deflection(low);
}

/** A strike on a spring of known stiffness, N/mm. */
export function springOfKnownTruth(seed: number, { noise, rate }: { noise: number; rate: number }): Told[] {
  const draw = new Draw(seed);
  const [energy, stiff] = [draw.between(38, 42), draw.between(1500, 2500)];
  const { speed } = strikeOf(energy);
  const omega = Math.sqrt((1000 * stiff) / MASS);
  // A mass on a spring: m δ'' = m g − k δ.
  const force = (t: number) =>
    1000 * stiff * ((speed / omega) * Math.sin(omega * t) + (GRAVITY / omega ** 2) * (1 - Math.cos(omega * t)));
  const peak = MASS * GRAVITY + Math.hypot(MASS * GRAVITY, 1000 * stiff * (speed / omega));
  const { reading } = readRun(
    strikeInput(
      draw,
      { noise, rate, energy, peak },
      {
        force: (_, t) => (t < 0 || t > 0.009 ? 0 : Math.max(0, force(t))),
        method: { characteristics: [{ ...characteristic('stiffness', 'stiffness', 'N/mm'), uncertainty: FORCE }] },
      },
    ),
  );
  return told(reading, { stiffness: stiff });
}

/**
 * A part that gives way at a random moment. What the method's low-pass makes of the edge belongs to its definition: the truth
 * is the same record without noise and with a sensor that reads right.
 */
export function onsetOfKnownTruth(seed: number, { noise, rate }: { noise: number; rate: number }): Told[] {
  const draw = new Draw(seed);
  const [energy, breaksAt] = [draw.between(38, 42), draw.between(0.0018, 0.0026)];
  const { peak } = strikeOf(energy);
  const over: Partial<ImpactInvention> = {
    force: (newtons, t) => newtons * (t > breaksAt ? 0.8 : 1),
    method: {
      characteristics: [
        ...budgeted(IMPACT_METHOD.characteristics, { onsetForce: FORCE }),
        { ...characteristic('onsetEnergy', 'energy', 'J'), uncertainty: FORCE },
      ],
    },
  };
  // The certificate is of the largest force, which here is that at the onset.
  const largest = peak * Math.sin((Math.PI * breaksAt) / PULSE);
  const { reading } = readRun(strikeInput(draw, { noise, rate, energy, peak: largest }, over));
  const { reading: right } = readRun(inventedImpactRun({ rate, noise: 0, seconds: 0.03, energies: [energy], ...over }));
  return told(reading, { onsetForce: numberOf(right, 'onsetForce'), onsetEnergy: numberOf(right, 'onsetEnergy') });
}

/** Half width of the distance of the gate's edges, mm, and standard uncertainty of its timer, s. */
const GATE_OFF = 0.25;
const TIMER_U = 20e-6;

/** A strike through a gate whose edges and timer are off. */
export function gateOfKnownTruth(seed: number): Told[] {
  const draw = new Draw(seed);
  const energy = draw.between(39, 41);
  const { speed, gateTime } = strikeOf(energy);
  // v_i² = (d/Δt + g Δt/2)² + 2 g s, by d and by Δt.
  const atEdge = Math.sqrt(speed ** 2 - 2 * GRAVITY * ABOVE);
  const perDistance = atEdge / speed / gateTime / 1000;
  const perTime = (atEdge / speed) * (GRAVITY / 2 - GATE / gateTime ** 2);
  const parts = (times: number, unit: string) =>
    covering(
      {
        from: 'half width',
        name: 'distance of the edges',
        halfWidth: times * perDistance * GATE_OFF,
        unit,
        distribution: 'rectangular',
      },
      { from: 'standard', name: 'timer', u: times * Math.abs(perTime) * TIMER_U, unit },
    );
  const { reading } = readRun(
    inventedImpactRun({
      energies: [energy],
      recorded: false,
      measurements: () => [measured('gateTime', gateTime + TIMER_U * draw.normal(), 's')],
      parameters: { gateDistance: { value: 1000 * GATE + draw.rectangular(GATE_OFF), unit: 'mm' } },
      method: {
        channels: [],
        characteristics: budgeted(IMPACT_METHOD.characteristics, {
          impactSpeed: parts(1, 'm/s'),
          // dE = m v dv.
          impactEnergy: parts(MASS * speed, 'J'),
        }),
      },
    }),
  );
  return told(reading, { impactSpeed: speed, impactEnergy: energy });
}
