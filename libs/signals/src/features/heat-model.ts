import { isNotEvaluated, type NotEvaluated, notEvaluated, type Step } from '@breakbook/lab';
import { fitLumpedHeating, heatingResponse, type Power } from '@breakbook/statistics';
import type { Computed } from './characteristic.js';
import type { TrackSensor } from './heat.js';
import { heatModelBudget } from './heat-model-budget.js';
import { type HeatSource, inStage } from './heat-source.js';
import { brakedSpan, gapsIn, mainStretch, over, type Stretch } from './heat-stretch.js';
import type { Span } from './time-above.js';
import { inUnit, seconds } from './words.js';

const kelvin = inUnit('K');
/** A stage is fitted through so many pieces; more say no more of a course this slow. */
const PIECES = 150;

/** The heated rim as one body with one way to lose its heat, as far as one stage shows it. */
export interface HeatModel {
  stretch: Stretch;
  sensor: TrackSensor;
  /** s, K/W, K. */
  timeConstant: number;
  thermalResistance: number;
  steadyRise: number;
  /** Of the time constant by the fit alone, widened where its residuals follow each other, s. */
  standardError: number;
  residualSd: number;
  /** Correlation of a residual with the next. */
  following: number;
  /** What was fitted, for trials of its uncertainty. */
  pieces: Pieces;
  startRise: number;
  /** W, of the stage fitted. */
  meanPower: number;
}

/**
 * Which time constant and thermal resistance does the stage with the most energy show? With the track as one body,
 *
 *     C dT/dt = α P − h A (T − T_room),   τ = C / (h A),   R = α / (h A)
 *
 * is fitted in its integrated form to the readings of the hottest track sensor above the room, over the time from the
 * first braking to the last: nothing is differentiated, and the power may vary. Power goes in as the energy of each of 150
 * pieces. Residuals that follow each other are worth fewer readings: standard errors are widened by √((1 + r) / (1 − r)),
 * r their correlation with the next.
 *
 * Source: `fitLumpedHeating` of the statistics room for the fit; Bartlett (1935), J. R. Stat. Soc. 98, 536-543, for the
 * effective number of correlated readings (from memory).
 */
function fittedModel(stretch: Stretch): HeatModel | NotEvaluated {
  const span = brakedSpan(stretch);
  if (!span) return notEvaluated('the brake was never on', 'a record that holds the braking of this specimen is read');
  const { room } = stretch.features.record;
  if (!room) return notEvaluated('the temperature of the room was not recorded', 'the rig records it beside the track');
  const [gap] = gapsIn(stretch, span.last);
  if (gap)
    return notEvaluated(
      `the record has a gap while the brake was on, from ${gap.from} s to ${gap.to} s`,
      'the stage is recorded without gaps',
    );
  const sensor = hottestSensor(stretch, span);
  if (sensor.open || sensor.flatTop)
    return notEvaluated(
      `${sensor.channel} ${sensor.open ? 'was an open circuit for a part of it' : 'is cut off at full scale'}`,
      'the track is read by a sensor that stays connected and in its range',
    );

  const pieces = piecesOf(stretch, span, sensor, room);
  const fitted = fitLumpedHeating(pieces.time, pieces.rise, pieces.power, 0);
  if (isNotEvaluated(fitted)) return fitted;
  const { timeConstant, thermalResistance = 0, steadyRise, startRise, residualSd, standardErrors } = fitted;
  const following = followingOf(pieces, { timeConstant, thermalResistance, startRise });
  const wider = Math.sqrt((1 + following) / (1 - following));
  return {
    stretch,
    sensor,
    timeConstant,
    thermalResistance,
    steadyRise,
    standardError: wider * standardErrors.timeConstant,
    residualSd,
    following,
    pieces,
    startRise,
    meanPower: over(stretch.features.energy, span) / (pieces.time.at(-1) as number),
  };
}

const fitted = new WeakMap<Stretch, HeatModel | NotEvaluated>();

/** Fitted once for the three numbers it gives, of the run and of its stage. */
function heatModel({ stretches }: HeatSource): HeatModel | NotEvaluated {
  const stretch = mainStretch(stretches);
  const before = fitted.get(stretch);
  if (before) return before;
  const model = fittedModel(stretch);
  fitted.set(stretch, model);
  return model;
}

export interface Pieces {
  /** s since the first braking; one more than there are powers. */
  time: number[];
  /** Above the room, K. */
  rise: number[];
  power: Power & { kind: 'segments' };
  /** The samples at which they end; one more than there are pieces. */
  ends: number[];
}

function piecesOf({ features }: Stretch, { from, last }: Span, sensor: TrackSensor, room: Float64Array): Pieces {
  const { time } = features.record;
  const count = Math.min(PIECES, last - from);
  const ends = Array.from({ length: count + 1 }, (_, i) => from + Math.round((i * (last - from)) / count));
  const segments = ends.slice(1).map((end, i) => {
    const start = ends[i] as number;
    const duration = (time[end] as number) - (time[start] as number);
    return { duration, power: ((features.energy[end] as number) - (features.energy[start] as number)) / duration };
  });
  return {
    time: ends.map((end) => (time[end] as number) - (time[from] as number)),
    rise: ends.map((end) => (sensor.raw[end] as number) - (room[end] as number)),
    power: { kind: 'segments', segments },
    ends,
  };
}

/** Correlation of each residual with the next; none is taken where it is negative. */
function followingOf(
  { time, rise, power }: Pieces,
  fit: { timeConstant: number; thermalResistance: number; startRise: number },
): number {
  const warming = heatingResponse(time, power, fit.timeConstant, 0);
  const residuals = rise.map(
    (one, i) =>
      one -
      fit.thermalResistance * (warming[i] as number) -
      fit.startRise * Math.exp(-(time[i] as number) / fit.timeConstant),
  );
  let [products, squares] = [0, 0];
  for (const [i, one] of residuals.entries()) {
    squares += one * one;
    products += one * (residuals[i + 1] ?? 0);
  }
  return squares > 0 ? Math.min(0.99, Math.max(0, products / squares)) : 0;
}

function hottestSensor({ features }: Stretch, { from, last }: Span): TrackSensor {
  const peak = ({ filtered }: TrackSensor) => filtered.subarray(from, last + 1).reduce((a, b) => Math.max(a, b));
  return features.track.reduce((hottest, one) => (peak(one) > peak(hottest) ? one : hottest));
}

export type HeatModelNumber = 'timeConstant' | 'thermalResistance' | 'steadyRise';
const UNITS = { timeConstant: 's', thermalResistance: 'K/W', steadyRise: 'K' } as const;

/** Trials take as long as reading the record: one stage of a run has them. */
const MAIN_ONLY: Step = {
  question: 'How sure is it?',
  numbers: {},
  answer: 'No uncertainty is stated: it is worked out for the stage with the most energy alone.',
};

/** One number of the model as a characteristic; its uncertainty by trials, since it does not follow its inputs in proportion. */
function fromModel(of: HeatModelNumber): (source: HeatSource) => Computed {
  return (source) => {
    const model = heatModel(source);
    if (isNotEvaluated(model)) return { value: model, unit: UNITS[of], steps: [] };
    return {
      value: { kind: 'exact', value: model[of] },
      unit: UNITS[of],
      steps: [modelStep(source, model)],
      budget: (wanted) =>
        model.stretch === source.main
          ? heatModelBudget(wanted, { of, unit: UNITS[of], model, calibrations: source.calibrations })
          : { step: MAIN_ONLY },
    };
  };
}

function modelStep(source: HeatSource, model: HeatModel): Step {
  const {
    sensor,
    stretch,
    timeConstant,
    thermalResistance,
    steadyRise,
    residualSd,
    following,
    meanPower,
    standardError,
  } = model;
  return {
    question: 'How fast does the track warm, and how far would it go?',
    numbers: {
      'time constant, s': timeConstant,
      'standard error of the fit, s': standardError,
      'thermal resistance, K/W': thermalResistance,
      'steady rise, K': steadyRise,
      'mean power, W': meanPower,
      'residual standard deviation, K': residualSd,
      'correlation of a residual with the next': following,
    },
    answer: `${sensor.channel}${inStage(source, stretch)}, above the room, follows one body with a time constant of ${seconds(timeConstant)} that would come to ${kelvin(steadyRise)} at this power; readings lie ${kelvin(residualSd)} about it.`,
  };
}

export const timeConstant = fromModel('timeConstant');
export const thermalResistance = fromModel('thermalResistance');
export const steadyRise = fromModel('steadyRise');
