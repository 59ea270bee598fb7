import type { Characteristic, MethodCharacteristic, Step, UncertaintyComponent } from '@breakbook/lab';
import {
  type ErrorPair,
  type Generator,
  type HeatingTrials,
  lumpedHeatingChange,
  lumpedHeatingTrials,
  type RecordError,
  seededGenerator,
  standardUncertainty,
} from '@breakbook/statistics';
import { convert, printSignificant, unitSymbol } from '@breakbook/units';
import { mean, median, sampleStandardDeviation } from 'simple-statistics';
import type { ChannelUncertainty } from './budget.js';
import { HEAT_CHANNELS } from './heat.js';
import type { HeatModel, HeatModelNumber } from './heat-model.js';
import type { Stretch } from './heat-stretch.js';

/** Trials come in blocks, three at least and ten at most, until what they say of the leading digit of u stands still. */
const BLOCK = 1_000;
const BLOCKS = { least: 3, most: 10 };
const SEED = 101;
/** With fewer trials settled than this share, the model is not one that the record fixes. */
const SETTLED = 0.99;

interface Asked {
  of: HeatModelNumber;
  unit: string;
  model: HeatModel;
  calibrations: ReadonlyMap<string, ChannelUncertainty>;
}

/**
 * How uncertain is a number of the heated body, by the budget of its method? It does not follow its inputs in proportion, so
 * distributions are propagated: each of 3000 to 10 000 seeded trials draws the error of every calibration once for the whole record,
 * the scatter of temperatures (as far as the residuals follow each other) and of power anew for each piece, fits again, and
 * adds what else the budget names. U = k · u with u the standard deviation over the trials and k the method's, or, where it
 * asks for a coverage, the factor within which so many trials lie; beside it stands their middle 95 %. Parts are told by
 * refits at plus and minus each standard uncertainty, and by trials of scatter alone.
 *
 * A budget with a component that cannot be had gives no uncertainty at all rather than one too small.
 *
 * Source: JCGM 101:2008, 5.9, 6.4 and 7; the number of trials by its adaptive procedure, 7.9, with one digit and smaller
 * blocks (from memory).
 */
export function heatModelBudget(
  { uncertainty, unit: wantedUnit }: MethodCharacteristic,
  { of, unit, model, calibrations }: Asked,
): { uncertainty?: NonNullable<Characteristic['uncertainty']>; step?: Step } {
  if (!uncertainty) return {};
  const question = 'How sure is it?';
  const none = (why: string) => ({ step: { question, numbers: {}, answer: `No uncertainty is stated: ${why}.` } });

  const errors: RecordError[] = [];
  const others: { name: string; u: number; draw: (chance: Generator) => number }[] = [];
  const size = convert(model[of], unit, wantedUnit, { difference: true });
  for (const component of uncertainty.components) {
    if (component.from !== 'calibration') {
      others.push({ name: component.name, ...drawnBeside(component, wantedUnit, size) });
      continue;
    }
    const error = errorOf(component, model, calibrations);
    if (typeof error === 'string') return none(error);
    if (error) errors.push(error);
  }
  const paired = (uncertainty.correlations ?? []).filter(({ between }) =>
    between.every((name) => [...errors, ...others].some((one) => one.name === name)),
  );
  const together = paired.map(({ between: [a, b], r }): ErrorPair => {
    const at = (name: string) => errors.findIndex((one) => one.name === name);
    return { between: [at(a), at(b)], r };
  });
  if (together.some(({ between }) => between.includes(-1)))
    return none(
      'only errors of calibration are drawn jointly, and a part that is no calibration errs together with another',
    );

  const trials = trialsOf(model, { errors, together, byEnds: uncertainty.coverage !== undefined });
  const made = trials[of].length + trials.unsettled;
  if (trials.unsettled > (1 - SETTLED) * made)
    return none(`${trials.unsettled} of ${made} trials with the errors of the record found no such body`);
  const chance = seededGenerator(SEED + BLOCKS.most);
  const inWanted = (value: number) => convert(value, unit, wantedUnit, { difference: true });
  const off = trials[of].map((one) => inWanted(one) + others.reduce((sum, { draw }) => sum + draw(chance), 0));
  const u = standardDeviation(off);
  const { coverage } = uncertainty;
  const k = uncertainty.k ?? coveringFactor(off, coverage ?? 0.95, u);
  const expanded = k * u;
  const components = [
    ...errors.map((error) => ({ name: error.name, u: partOf(error, model, of, inWanted) })),
    ...others.map((one) => ({ name: one.name, u: one.u })),
    { name: 'scatter of temperature and power', u: inWanted(standardDeviation(scatterTrials(model)[of])) },
  ].filter((part) => part.u > 0);
  const [lower, upper] = middle(off);
  return {
    uncertainty: { expanded, k, ...(coverage === undefined ? {} : { coverage }), components },
    step: {
      question,
      numbers: {
        ...Object.fromEntries(components.map((part) => [`u, ${part.name}`, part.u])),
        ...Object.fromEntries(paired.map(({ between, r }) => [`r, ${between.join(' and ')}`, r])),
        trials: made,
        seed: SEED,
        'middle 95 % of the trials, from': size + lower,
        'middle 95 % of the trials, to': size + upper,
        ...(coverage === undefined ? {} : { coverage }),
        k,
        U: expanded,
      },
      answer: `U = ${printSignificant(expanded, 2)} ${unitSymbol(wantedUnit)} with k = ${k}, by ${made} seeded trials: in each, errors of calibration hold for the whole record, scatter is drawn anew, and the model is fitted again. The middle 95 % lie from ${printSignificant(size + lower, 3)} to ${printSignificant(size + upper, 3)}.`,
    },
  };
}

/** The factor within which this share of the trials lies; printed with two decimals, never smaller than what covers. */
function coveringFactor(off: Float64Array, coverage: number, u: number): number {
  const sizes = off.map(Math.abs).sort();
  return Math.ceil((100 * (sizes[Math.ceil(coverage * sizes.length) - 1] as number)) / u) / 100;
}

/** What a calibration's error does to the record; nothing where the model does not use the channel; why not where unknown. */
function errorOf(
  { name, channel }: Extract<UncertaintyComponent, { from: 'calibration' }>,
  { stretch: { features }, sensor, pieces }: HeatModel,
  calibrations: ReadonlyMap<string, ChannelUncertainty>,
): RecordError | string | undefined {
  const unused = channel !== sensor.channel && features.track.some((one) => one.channel === channel);
  if (unused) return undefined;
  const calibration = calibrations.get(channel);
  if (!calibration) return `no calibration is in force for channel ${channel}`;
  const { u } = calibration;
  if (u === 0) return undefined;
  const perPiece = (sum: Float64Array) =>
    Float64Array.from(pieces.power.segments, ({ duration }, i) => {
      const [from, to] = [pieces.ends[i] as number, pieces.ends[i + 1] as number];
      return ((sum[to] as number) - (sum[from] as number)) / duration;
    });
  switch (channel) {
    case sensor.channel:
      return { name, u, rise: 1 };
    case HEAT_CHANNELS.room:
      return { name, u, rise: -1 };
    // A newton more is a watt more for each metre a second, and the other way about.
    case HEAT_CHANNELS.force:
      return { name, u, power: perPiece(features.distance) };
    case HEAT_CHANNELS.speed:
      return { name, u, power: perPiece(features.forceTime) };
    default:
      return `the value does not follow channel ${channel}`;
  }
}

/** A part of the budget that is no channel's: its standard uncertainty and a draw of it, in the wanted unit. */
function drawnBeside(
  component: Exclude<UncertaintyComponent, { from: 'calibration' }>,
  unit: string,
  size: number,
): { u: number; draw: (chance: Generator) => number } {
  if (component.from === 'standard') {
    const u = convert(component.u, component.unit, unit, { difference: true });
    return { u, draw: (chance) => u * chance.normal() };
  }
  const { distribution } = component;
  const half =
    component.from === 'half width'
      ? convert(component.halfWidth, component.unit, unit, { difference: true })
      : component.halfWidth * Math.abs(size);
  const shapes: Record<typeof distribution, (chance: Generator) => number> = {
    rectangular: (chance) => 2 * chance.uniform() - 1,
    triangular: (chance) => chance.uniform() + chance.uniform() - 1,
    'u-shaped': (chance) => Math.cos(Math.PI * chance.uniform()),
  };
  return { u: standardUncertainty(half, distribution), draw: (chance) => half * shapes[distribution](chance) };
}

const done = new WeakMap<HeatModel, Map<string, HeatingTrials>>();

interface Drawn {
  errors: readonly RecordError[];
  together: readonly ErrorPair[];
  /** Does the factor come from the ends of the trials, so that these must stand still too? */
  byEnds: boolean;
}

/** Drawn once for all numbers of a model whose budgets name the same calibrations. */
function trialsOf(model: HeatModel, { errors, together, byEnds }: Drawn): HeatingTrials {
  const key = JSON.stringify([errors.map(({ name, u, rise, power }) => [name, u, rise, power?.[0]]), together, byEnds]);
  return kept(model, key, () =>
    untilStill(byEnds, (seed) =>
      lumpedHeatingTrials(
        piecewise(model),
        model,
        { errors, noise: noiseOf(model), together },
        { trials: BLOCK, seed },
      ),
    ),
  );
}

const NUMBERS = ['timeConstant', 'thermalResistance', 'steadyRise'] as const;

/** Blocks of trials until mean and u of each number, and the ends where they count, stand still, or there are enough. */
function untilStill(byEnds: boolean, block: (seed: number) => HeatingTrials): HeatingTrials {
  const blocks: HeatingTrials[] = [];
  while (blocks.length < BLOCKS.most) {
    blocks.push(block(SEED + blocks.length));
    if (
      blocks.length >= BLOCKS.least &&
      NUMBERS.every((name) =>
        standsStill(
          blocks.map((one) => one[name]),
          byEnds,
        ),
      )
    )
      break;
  }
  const all = (name: HeatModelNumber) => Float64Array.from(blocks.flatMap((one) => Array.from(one[name])));
  return {
    timeConstant: all('timeConstant'),
    thermalResistance: all('thermalResistance'),
    steadyRise: all('steadyRise'),
    unsettled: blocks.reduce((sum, one) => sum + one.unsettled, 0),
  };
}

/** Is twice the standard error of each, from block to block, within half a unit of the leading digit of u? */
function standsStill(blocks: readonly Float64Array[], byEnds: boolean): boolean {
  const said = blocks.map((off) => [mean(Array.from(off)), standardDeviation(off), ...middle(off)]);
  const u = mean(said.map((one) => one[1] as number));
  const tolerance = 10 ** Math.floor(Math.log10(u)) / 2;
  return (byEnds ? [0, 1, 2, 3] : [0, 1]).every(
    (which) =>
      (2 * sampleStandardDeviation(said.map((one) => one[which] as number))) / Math.sqrt(blocks.length) <= tolerance,
  );
}

/** Of scatter alone, for its part in the whole. */
function scatterTrials(model: HeatModel): HeatingTrials {
  return kept(model, 'scatter', () =>
    lumpedHeatingTrials(piecewise(model), model, { errors: [], noise: noiseOf(model) }, { trials: BLOCK, seed: SEED }),
  );
}

function kept(model: HeatModel, key: string, make: () => HeatingTrials): HeatingTrials {
  const known = done.get(model) ?? new Map<string, HeatingTrials>();
  done.set(model, known);
  const trials = known.get(key) ?? make();
  known.set(key, trials);
  return trials;
}

function piecewise({ pieces: { power } }: HeatModel) {
  return {
    power: Float64Array.from(power.segments, (one) => one.power),
    duration: Float64Array.from(power.segments, (one) => one.duration),
  };
}

function noiseOf({ pieces, residualSd, following, stretch }: HeatModel) {
  const sd = scatterOf(stretch, pieces.ends);
  return {
    rise: residualSd,
    following,
    power: Float64Array.from(pieces.power.segments, (_, i) => {
      const samples = (pieces.ends[i + 1] as number) - (pieces.ends[i] as number);
      return sd / Math.sqrt(samples);
    }),
  };
}

/** Scatter of the power from sample to sample: the median step between neighbours, of which each holds two draws, W. */
function scatterOf({ features: { power } }: Stretch, ends: readonly number[]): number {
  const [from, to] = [ends[0] as number, ends.at(-1) as number];
  const steps = Array.from({ length: to - from }, (_, i) =>
    Math.abs((power[from + i + 1] as number) - (power[from + i] as number)),
  );
  // Median of |normal|: 0.6745 standard deviations. A brake let go is one large step among many.
  return median(steps) / 0.6744897501960817 / Math.SQRT2;
}

function partOf(
  error: RecordError,
  model: HeatModel,
  of: HeatModelNumber,
  inWanted: (value: number) => number,
): number {
  const change = lumpedHeatingChange(piecewise(model), model, error);
  // An error too large for a refit shows in the trials alone.
  return change ? Math.abs(inWanted(change[of])) : 0;
}

function standardDeviation(values: Float64Array): number {
  return sampleStandardDeviation(Array.from(values));
}

/** The probabilistically symmetric 95 % of the trials (JCGM 101:2008, 7.7.2). */
function middle(values: Float64Array): [number, number] {
  const sorted = values.toSorted();
  const beyond = Math.round(0.025 * sorted.length);
  return [sorted[beyond] as number, sorted[sorted.length - 1 - beyond] as number];
}
