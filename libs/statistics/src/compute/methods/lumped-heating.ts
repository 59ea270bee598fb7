import { isNotEvaluated } from '@breakbook/lab';
import { z } from 'zod';
import type { Power } from '../../physics/heating-response.js';
import { lumpedHeating } from '../../physics/lumped-heating.js';
import { fitLumpedHeating } from '../../physics/lumped-heating-fit.js';
import { Amount, Reading, Times } from '../inputs-of-physics.js';
import { defineMethod } from '../method.js';

const Segment = z.strictObject({ power: Reading, duration: Amount });
const FORWARD = ['conductance', 'capacity', 'start'] as const;

export const lumpedHeatingMethod = defineMethod({
  method: 'lumped-heating',
  question: 'How warm does a body get that is heated evenly - or which time constant and resistance explain a record?',
  inputs: z
    .strictObject({
      time: Times.describe('s, increasing; forward from 0, when `start` holds'),
      power: z
        .union([Reading, z.array(Reading), z.array(Segment).min(1)])
        .optional()
        .describe(
          'W: one number, or pieces {power, duration in s} one after the other; for a fit also one for each time. A fit without it takes it as constant and unknown',
        ),
      temperature: z.array(Reading).optional().describe('one for each time; given for a fit only'),
      ambient: Reading.describe('on the scale of the temperatures, whose degree is the kelvin'),
      conductance: Amount.optional().describe('hA, W/K; forward only'),
      capacity: Amount.optional().describe('m c, J/K; forward only'),
      start: Reading.optional().describe('temperature at time 0; forward only'),
    })
    .superRefine(({ temperature, power, ...given }, context) => {
      const issue = (name: string, message: string, code: string) =>
        context.addIssue({ code: 'custom', path: [name], message, params: { code } });
      for (const name of FORWARD) {
        if (temperature === undefined && given[name] === undefined)
          issue(name, `${name} is needed here and nothing was found; a fit gives temperature`, 'body.missing-field');
        if (temperature !== undefined && given[name] !== undefined)
          issue(name, `${name} belongs to the forward question; with temperature it is fitted`, 'body.unknown-field');
      }
      if (temperature !== undefined) return;
      if (power === undefined) issue('power', 'a power is needed here and nothing was found', 'body.missing-field');
      if (Array.isArray(power) && typeof power[0] === 'number')
        issue('power', 'forward takes one number, or pieces {power, duration}', 'body.type');
    }),
  result: {
    temperature: 'forward: at each time, on the scale of ambient',
    timeConstant: 's',
    steadyTemperature: 'forward: what the last power would come to in the end',
    thermalResistance: 'fit: K/W; left out where no power was given',
    steadyRise: 'fit: warming that the mean power of the record would come to in the end, K',
    startRise: 'fit: warming at the first time, K',
    residualSd: 'fit: standard deviation of the temperatures about it, K',
    standardErrors: 'fit: of timeConstant, thermalResistance and steadyRise',
  },
  assumptions: [
    'one temperature throughout the body (Biot number below 0.1)',
    'the conductance does not change with temperature or time',
    'fit: scatter is independent from sample to sample; a power given for each time goes straight between them',
  ],
  source:
    'Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, lumped capacitance; fit by separable least squares, Golub and Pereyra (1973)',
  run({ time, power, temperature, ambient, conductance, capacity, start }) {
    if (temperature !== undefined) {
      const fit = fitLumpedHeating(time, temperature, power === undefined ? undefined : powerOf(power), ambient);
      return isNotEvaluated(fit) ? fit : { ...fit };
    }
    const known = power === undefined ? undefined : powerOf(power);
    if (
      !known ||
      known.kind === 'sampled' ||
      conductance === undefined ||
      capacity === undefined ||
      start === undefined
    )
      throw new Error('the inputs schema lets none of them be missing');
    const { temperature: course, ...rest } = lumpedHeating(time, known, { conductance, capacity, ambient, start });
    return { temperature: Array.from(course), ...rest };
  },
});

function powerOf(power: number | number[] | { power: number; duration: number }[]): Power {
  if (typeof power === 'number') return { kind: 'constant', power };
  return isSampled(power) ? { kind: 'sampled', power } : { kind: 'segments', segments: power };
}

function isSampled(power: number[] | { power: number; duration: number }[]): power is number[] {
  return typeof power[0] === 'number';
}
