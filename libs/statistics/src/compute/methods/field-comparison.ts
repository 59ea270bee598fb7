import { isNotEvaluated } from '@breakbook/lab';
import { z } from 'zod';
import { type FieldPrediction, predictField } from '../../physics/field-comparison.js';
import { type FieldSpread, fieldSpread, UNCERTAIN_INPUTS } from '../../physics/field-comparison-uncertainty.js';
import { Amount, Reading } from '../inputs-of-physics.js';
import { defineMethod } from '../method.js';

/** Between a laminar and a turbulent boundary layer, half way; see `predictField`. */
const EXPONENT = { middle: 0.65, halfWidth: 0.15 };
const TRIALS = 10_000;
/** Air speeds farther from the rig's than this factor were not tried there. */
const NEAR = 2;

export const FIELD_CAUTION =
  'This compares energy and temperature, by the rim as one heated body. It never says that a descent is safe: riders, pads, tyres, heat that stays in a hot spot and much else are not in it. For whether a wheel may be ridden, defer to the maker, to the standards it must meet, and to licensed engineering practice.';

const Uncertain = z
  .strictObject(
    Object.fromEntries(UNCERTAIN_INPUTS.map((name) => [name, Amount.optional()])) as Record<
      (typeof UNCERTAIN_INPUTS)[number],
      z.ZodOptional<typeof Amount>
    >,
  )
  .optional();

const Reached = z
  .strictObject({
    energy: Amount.optional(),
    energyUncertainty: Amount.optional(),
    temperature: Reading.optional(),
    temperatureUncertainty: Amount.optional(),
  })
  .optional();

export const fieldComparisonMethod = defineMethod({
  method: 'field-comparison',
  question:
    'How much energy does a descent put into this brake, and how warm would the rim get, beside what a run on the rig reached?',
  inputs: z
    .strictObject({
      mass: Amount.describe('rider, bicycle and all they carry, kg'),
      slope: Amount.max(1).describe('height over horizontal way, a fraction; 0.1 for 10 %'),
      speed: Amount.max(60).describe('held constant, m/s'),
      dragArea: Amount.describe('drag coefficient times frontal area, m²'),
      rolling: Amount.max(1).describe('coefficient of rolling resistance'),
      airDensity: Amount.max(10).describe('kg/m³'),
      share: z.number().gt(0).max(1).describe('of the braking that this brake does, a fraction'),
      ambient: Reading.describe('°C; the rim begins at it'),
      duration: Amount.optional().describe('of braking, s; this or height'),
      height: Amount.optional().describe('lost while braking, m; this or duration'),
      thermalResistance: Amount.describe('of the rim by the run, K/W'),
      timeConstant: Amount.describe('of the rim by the run, s'),
      airSpeed: Amount.max(60).describe('of the air stream on the rig, m/s'),
      exponent: z
        .number()
        .min(0)
        .max(1)
        .optional()
        .describe(`heat goes to the air as its speed to this power; ${EXPONENT.middle} if left out`),
      exponentHalfWidth: z
        .number()
        .min(0)
        .max(0.5)
        .optional()
        .describe(`the exponent lies within so much of it; ${EXPONENT.halfWidth} if left out`),
      reached: Reached.describe('by the run: energy in J, temperature in °C, and their standard uncertainties'),
      uncertainties: Uncertain.describe(
        `standard uncertainties, in the unit of each, of ${UNCERTAIN_INPUTS.join(', ')}; what is left out is taken as exact`,
      ),
      trials: z.number().int().min(1000).max(1_000_000).optional().describe(`${TRIALS} if left out`),
      seed: z
        .number()
        .int()
        .min(0)
        .max(2 ** 32 - 1)
        .optional()
        .describe('of the trials; 1 if left out'),
    })
    .superRefine(({ duration, height }, context) => {
      const issue = (message: string, code: string) =>
        context.addIssue({ code: 'custom', path: ['duration'], message, params: { code } });
      if (duration === undefined && height === undefined)
        issue('duration or height is needed here and neither was found', 'body.missing-field');
      if (duration !== undefined && height !== undefined)
        issue('duration and height say the same twice; leave one out', 'body.unknown-field');
    }),
  result: {
    power: 'both brakes together, W',
    powerHere: 'into this brake, W',
    duration: 's',
    height: 'm',
    energyHere: 'into this brake, J',
    thermalResistance: 'at the speed of the descent, K/W',
    timeConstant: 'at the speed of the descent, s',
    temperature: 'of the rim at the end by the closed form, °C',
    stepwise: 'the same by steps of the differential equation, °C',
    steadyTemperature: 'of the rim if the descent went on for ever, °C',
    exponent: 'of the air speed, with half width',
    extrapolated: `true where the speed is beyond ${NEAR} times, or below 1/${NEAR}, of the air speed on the rig`,
    spread: 'of powerHere, energyHere and temperature: standard uncertainty and middle 95 % of the trials',
    takenAsExact: 'inputs without a stated uncertainty',
    compared:
      'with what the run reached: energyShare (of the descent in that of the run), temperatureBelow (the run above the descent, K), each with its standard uncertainty',
    caution: 'stands beside every use of this answer',
  },
  assumptions: [
    'constant slope and speed, no wind; bearings and drivetrain take nothing',
    'the rim is one heated body that begins as warm as the air; heat goes to the air alone, heat capacity is what it was on the rig',
    'inputs are independent; those with a stated uncertainty normal, the exponent rectangular',
    'a comparison of energy and temperature: it never says that a descent is safe',
  ],
  source:
    'Martin, Milliken, Cobb, McFadden and Coggan (1998), J. Appl. Biomech. 14, 276-291 (power); Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, 5.1 to 5.3 and 7.2; JCGM 101:2008',
  run({ duration, height, exponent = EXPONENT.middle, exponentHalfWidth = EXPONENT.halfWidth, ...given }) {
    const { reached = {}, uncertainties = {}, trials = TRIALS, seed = 1 } = given;
    const { thermalResistance, timeConstant, airSpeed, mass, slope, speed, dragArea, rolling, airDensity } = given;
    const length = duration === undefined ? { height: height as number } : { duration };
    const descent = {
      ...{ mass, slope, speed, dragArea, rolling, airDensity },
      ...{ share: given.share, ambient: given.ambient, length },
    };
    const rim = { thermalResistance, timeConstant, airSpeed, exponent };
    const predicted = predictField(descent, rim);
    if (isNotEvaluated(predicted)) return predicted;
    const standard = Object.fromEntries(Object.entries(uncertainties).filter(([, u]) => u !== undefined));
    const spread = fieldSpread(descent, rim, { standard, exponentHalfWidth }, { trials, seed });
    return {
      ...predicted,
      exponent: { value: exponent, halfWidth: exponentHalfWidth },
      extrapolated: speed > NEAR * airSpeed || speed < airSpeed / NEAR,
      spread,
      takenAsExact: UNCERTAIN_INPUTS.filter((name) => uncertainties[name] === undefined),
      compared: comparedWith(reached, predicted, spread),
      caution: FIELD_CAUTION,
    };
  },
});

/** To first order (JCGM 100:2008, 5.1.2), run and prediction taken as independent. */
function comparedWith(
  { energy, energyUncertainty = 0, temperature, temperatureUncertainty = 0 }: NonNullable<z.infer<typeof Reached>>,
  { energyHere, temperature: predicted }: FieldPrediction,
  spread: FieldSpread,
) {
  return {
    ...(energy === undefined
      ? {}
      : {
          energyShare: {
            value: energyHere / energy,
            standard:
              (energyHere / energy) * Math.hypot(spread.energyHere.standard / energyHere, energyUncertainty / energy),
          },
        }),
    ...(temperature === undefined
      ? {}
      : {
          temperatureBelow: {
            value: temperature - predicted,
            standard: Math.hypot(spread.temperature.standard, temperatureUncertainty),
          },
        }),
  };
}
