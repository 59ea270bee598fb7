/** The two drop methods of the sample lots, with their failure modes and uncertainty budgets. */

import { dropReadiness } from './readiness.mjs';
import { GATE, GATE_ABOVE_CONTACT, GRAVITY, STRIKER_MASS } from './strike.mjs';
import { WHO } from './world.mjs';

/** What each mode says of the energy at which a wheel fails. */
const MODES = [
  ['IV-NIL', 'no visible change', 'at least'],
  ['IM-MAR', 'cosmetic mark or print of the pad', 'at least'],
  ['IR-RUN', 'out of true after the strike, no crack', 'at least'],
  ['ID-DEL', 'delamination, by tapping or visible', 'failure'],
  ['IC-FLG', 'flange or bead cracked', 'failure'],
  ['IC-WAL', 'sidewall cracked', 'failure'],
  ['IC-BED', 'tyre bed or spoke hole cracked, or a nipple pulled out', 'failure'],
  ['IC-RAD', 'rim broke through', 'failure'],
  ['IS-SPK', 'spoke or nipple broken', 'failure'],
  ['IH-HUB', 'hub, axle or fixture damaged', 'none'],
  ['IX-RIG', 'bad strike, catcher fault or sensor lost', 'none'],
];

/** @param {string} name @param {number} halfWidth share of the value */
const share = (name, halfWidth) => ({ from: 'relative half width', name, halfWidth, distribution: 'rectangular' });

/** U of a speed is 0.3 % of it, of an energy 0.6 %: half a tenth of a millimetre in the distance of the barriers leads. */
const speedBudget = {
  k: 2,
  components: [share('distance of the light barriers, 0.05 mm in 20 mm', 0.0025), share('timer', 0.0005)],
};
const energyBudget = {
  k: 2,
  components: [
    share('distance of the light barriers, 0.05 mm in 20 mm', 0.005),
    share('timer', 0.001),
    share('mass of striker and carriage', 0.001),
  ],
};
const forceBudget = {
  k: 2,
  components: [
    { from: 'calibration', name: 'calibration of the striker cell', channel: 'strikerForce' },
    share('ringing of striker and cell', 0.01),
  ],
};
/** U of a change of run-out is 0.04 mm: sqrt(0.0173² + 2 · 0.0058²) = 0.019 mm, k 2. */
const runOutBudget = {
  k: 2,
  components: [
    {
      from: 'half width',
      name: 'wheel taken from the fixture and put back',
      halfWidth: 0.03,
      unit: 'mm',
      distribution: 'rectangular',
    },
    { from: 'half width', name: 'dial gauge, before', halfWidth: 0.01, unit: 'mm', distribution: 'rectangular' },
    { from: 'half width', name: 'dial gauge, after', halfWidth: 0.01, unit: 'mm', distribution: 'rectangular' },
  ],
};

const runOut = (/** @type {'lateral' | 'radial'} */ way) => {
  const title = way === 'lateral' ? 'Lateral' : 'Radial';
  return [
    {
      characteristic: `${way}RunOutChange`,
      title: `${title} run-out change`,
      kind: 'length',
      unit: 'mm',
      definition: `Largest ${way} reading after the strikes less the largest before, eight places a turn.`,
      uncertainty: runOutBudget,
    },
    {
      characteristic: `${way}RunOutGrowth`,
      title: `${title} run-out growth at one place`,
      kind: 'length',
      unit: 'mm',
      definition: `Largest difference of the ${way} readings after and before at the same place: shows a dent that the change of the largest hides.`,
      uncertainty: runOutBudget,
    },
  ];
};

const failureEnergy = {
  characteristic: 'failureEnergy',
  title: 'Energy at failure',
  kind: 'energy',
  unit: 'J',
  uncertainty: energyBudget,
};

const ofOneStrike = [
  {
    characteristic: 'impactSpeed',
    title: 'Impact speed',
    kind: 'speed',
    unit: 'm/s',
    definition: 'Distance of the light barriers over the time between them, carried on to contact by gravity.',
    uncertainty: speedBudget,
  },
  {
    characteristic: 'nominalEnergy',
    title: 'Nominal energy',
    kind: 'energy',
    unit: 'J',
    definition: 'Mass times gravity times the height set.',
  },
  {
    characteristic: 'impactEnergy',
    title: 'Impact energy',
    kind: 'energy',
    unit: 'J',
    definition: 'Half the mass times the square of the impact speed.',
    uncertainty: energyBudget,
  },
  {
    characteristic: 'peakForce',
    title: 'Peak force',
    kind: 'force',
    unit: 'kN',
    definition: 'Largest force on the striker after the declared low-pass.',
    uncertainty: forceBudget,
  },
  {
    characteristic: 'unfilteredPeakForce',
    title: 'Peak force, unfiltered',
    kind: 'force',
    unit: 'kN',
    definition: 'Largest single reading of the force. It shows what the low-pass changed and is never judged.',
    uncertainty: forceBudget,
  },
  {
    characteristic: 'onsetForce',
    title: 'Force at the onset of damage',
    kind: 'force',
    unit: 'kN',
    definition: 'Force from which it first falls by 5 % at once; at least the peak where it never does.',
    uncertainty: forceBudget,
  },
  {
    characteristic: 'onsetEnergy',
    title: 'Energy at the onset of damage',
    kind: 'energy',
    unit: 'J',
    definition:
      'Energy the wheel had taken when its force first fell by 5 % at once; at least all it took where it never did.',
  },
  {
    characteristic: 'stiffness',
    title: 'Stiffness',
    kind: 'stiffness',
    unit: 'kN/mm',
    definition: 'Slope of the force over the deflection between 10 and 40 % of the largest force.',
  },
  {
    characteristic: 'maximumDeflection',
    title: 'Largest deflection',
    kind: 'length',
    unit: 'mm',
    definition: 'Largest travel of the striker after contact: the force integrated twice.',
  },
  {
    characteristic: 'absorbedEnergy',
    title: 'Absorbed energy',
    kind: 'energy',
    unit: 'J',
    definition: 'Energy given to the wheel at the end of contact.',
  },
  {
    characteristic: 'reboundSpeed',
    title: 'Rebound speed',
    kind: 'speed',
    unit: 'm/s',
    definition: 'Upward speed of the striker at the end of contact, by its second passage of the light barriers.',
    uncertainty: speedBudget,
  },
  {
    characteristic: 'restitution',
    title: 'Coefficient of restitution',
    kind: 'ratio',
    unit: '1',
    definition: 'Rebound speed over impact speed, both by the light barriers.',
  },
  {
    characteristic: 'impulse',
    title: 'Impulse',
    kind: 'impulse',
    unit: 'N.s',
    definition: 'Integral of the force over the contact.',
  },
  {
    characteristic: 'contactTime',
    title: 'Contact time',
    kind: 'time',
    unit: 'ms',
    definition: 'From the first force to its end.',
  },
];

const parameters = {
  mass: { value: STRIKER_MASS, unit: 'kg' },
  targetEnergy: { value: 42, unit: 'J' },
  energyBand: 0.03,
  gateDistance: { value: GATE * 1000, unit: 'mm' },
  gateAboveContact: { value: GATE_ABOVE_CONTACT * 1000, unit: 'mm' },
  gravity: { value: GRAVITY, unit: 'm/s2' },
  baseline: { value: 5, unit: 'ms' },
  contactShare: 0.01,
  lowPass: { value: 4, unit: 'kHz' },
  onsetFall: 0.05,
  guideEfficiency: 0.95,
  momentumShare: 0.03,
  secondStrike: { value: 500, unit: 'ms' },
  forceShareOfFullScale: 0.9,
  setUp: {
    spokeTension: { from: { value: 950, unit: 'N' }, to: { value: 1150, unit: 'N' } },
    runOutAtMost: { lateral: { value: 0.4, unit: 'mm' }, radial: { value: 0.4, unit: 'mm' } },
  },
};

const common = {
  test: 'impact',
  inForceFrom: '2026-06-15',
  approvedBy: WHO.approves,
  channels: [{ channel: 'strikerForce', kind: 'force', required: true, minimumRate: { value: 50, unit: 'kHz' } }],
  failureModes: MODES.map(([code, meaning, as]) => ({ code, meaning, countsAs: { failureEnergy: as } })),
  readiness: dropReadiness,
};

const SET_UP =
  'The wheel without a tyre is held at its axle, rim free, valve at 270° so that the striker meets the rim at 90° from it, between two spoke holes. Flat steel striker with a rubber pad of 85 Shore A; carriage and striker weigh 10.4 kg. The recorder keeps 40 ms; whether the catcher held is seen on the high-speed video.';

export const singleDrop = {
  ...common,
  method: 'DROP-40',
  revision: 1,
  title: 'One strike on a wheel, guided drop tower',
  basis: `Saltmarsh Wheelworks test instruction TI-12. ${SET_UP} The height is set for 42 J so that losses in the guides leave 40 J at least. Run-out at eight places and the tension of the four nearest spokes before and after.`,
  minimumSpecimens: 5,
  characteristics: [
    ...ofOneStrike,
    {
      ...failureEnergy,
      definition:
        'Energy of the strike: a wheel found whole holds at least this, one found broken failed at this or below.',
    },
    ...runOut('lateral'),
    ...runOut('radial'),
  ],
  parameters: { series: 'single strike', ...parameters },
};

export const risingDrop = {
  ...common,
  method: 'DROP-STEP',
  revision: 1,
  title: 'Rising strikes at one point of a wheel, guided drop tower',
  basis: `Saltmarsh Wheelworks test instruction TI-13. ${SET_UP} Strikes of 42 J and then 10 J more each time, until the wheel is found damaged; it is tapped and looked at after each. Damage adds up, so a wheel struck this way never stands beside wheels struck once.`,
  minimumSpecimens: 1,
  characteristics: [
    ...ofOneStrike,
    {
      ...failureEnergy,
      definition: 'Between the energy of the last strike after which the wheel was whole and that of the next.',
    },
    ...runOut('lateral'),
    ...runOut('radial'),
  ],
  parameters: { series: 'rising energy', ...parameters },
};
