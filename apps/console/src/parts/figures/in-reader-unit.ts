import {
  type AxisQuantity,
  type ComparedBand,
  type ComparisonInput,
  fitInto,
  type LotHistoryInput,
  type MarginStripInput,
  type ProbabilityPlotInput,
  type StaircaseInput,
  type TracePlotInput,
} from '@breakbook/figures';
import type { CharacteristicValue } from '@breakbook/lab';
import { converter } from '@breakbook/units';
import { quantitiesIn } from '../units/known-quantities.js';
import { shownUnit, type UnitChoice } from '../units/reader-unit.js';
import { decimalsInUnit, retell } from '../units/retell.js';

/**
 * The same figures for a reader who thinks in another unit: every value on them is converted before it is drawn, so
 * that their scales have round numbers too. One unit is shown, the reader's; a second one is left out.
 */

export function stripInUnit(input: MarginStripInput, choice: UnitChoice): MarginStripInput {
  const { shown, into } = forReader(input, choice);
  return {
    ...input,
    ...shown,
    specimens: input.specimens.map((one) => ({ ...one, value: convertedValue(one.value, into) })),
    limits: input.limits.map((one) => ({ ...one, value: into(one.value) })),
    bounds: input.bounds.map((one) => convertedBound(one, into)),
  };
}

export function probabilityInUnit(input: ProbabilityPlotInput, choice: UnitChoice): ProbabilityPlotInput {
  const { shown, into, difference } = forReader(input, choice);
  const { fit, band, bound } = input;
  return {
    ...input,
    ...shown,
    failures: input.failures.map((one) => ({ ...one, value: into(one.value) })),
    atLeast: input.atLeast.map((one) => ({ ...one, value: into(one.value) })),
    ...(fit ? { fit: fitInto(fit, into, difference) } : {}),
    ...(band
      ? {
          band: { ...band, limits: band.limits.map((at) => ({ ...at, lower: into(at.lower), upper: into(at.upper) })) },
        }
      : {}),
    ...(bound ? { bound: convertedBound(bound, into) } : {}),
    limits: input.limits.map((one) => ({ ...one, value: into(one.value) })),
  };
}

export function staircaseInUnit(input: StaircaseInput, choice: UnitChoice): StaircaseInput {
  const { shown, into } = forReader(input, choice);
  return {
    ...input,
    ...shown,
    strikes: input.strikes.map((one) => ({ ...one, level: into(one.level) })),
    ...(input.estimate === undefined ? {} : { estimate: into(input.estimate) }),
  };
}

export function historyInUnit(input: LotHistoryInput, choice: UnitChoice): LotHistoryInput {
  const { shown, into } = forReader(input, choice);
  return {
    ...input,
    ...shown,
    lots: input.lots.map((one) => ({
      ...one,
      results: one.results.map((result) => ({ ...result, value: convertedValue(result.value, into) })),
      ...(one.bound ? { bound: { value: into(one.bound.value), estimate: into(one.bound.estimate) } } : {}),
    })),
    limits: input.limits.map((one) => ({ ...one, value: into(one.value) })),
  };
}

export function comparisonInUnit(input: ComparisonInput, choice: UnitChoice): ComparisonInput {
  const known = input.axes.flatMap(({ quantity, ...axis }) => quantitiesIn({ ...axis, unit: quantity.unit }));
  return {
    ...input,
    alt: retell(input.alt, choice, known),
    caption: retell(input.caption, choice, known),
    axes: input.axes.map((axis) => {
      const { shown, into } = forReader({ ...axis, alt: '', caption: '' }, choice);
      return {
        ...axis,
        quantity: shown.quantity,
        reference: convertedBand(axis.reference, into),
        items: convertedBand(axis.items, into),
        bounds: axis.bounds.map((one) => ({ ...one, value: into(one.value) })),
        limits: axis.limits.map((one) => ({ ...one, value: into(one.value) })),
      };
    }),
  };
}

export function traceInUnit(input: TracePlotInput, choice: UnitChoice): TracePlotInput {
  const units = new Map(input.channels.map(({ channel, unit }) => [channel, unit]));
  const intoUnitOf = (unit: string) => converter(unit, shownUnit(unit, choice));
  const known = input.events.map(({ channel, value }) => ({ value, unit: units.get(channel) ?? '1', bound: false }));
  return {
    ...input,
    alt: retell(input.alt, choice, known),
    caption: retell(input.caption, choice, known),
    channels: input.channels.map((one) => {
      const { time, values } = one.samples;
      const into = intoUnitOf(one.unit);
      return { ...one, unit: shownUnit(one.unit, choice), samples: { time, values: Array.from(values, into) } };
    }),
    events: input.events.map((event) => {
      const unit = units.get(event.channel);
      return unit === undefined ? event : { ...event, value: intoUnitOf(unit)(event.value) };
    }),
  };
}

function forReader(input: { quantity: AxisQuantity; alt: string; caption: string }, choice: UnitChoice) {
  const { title, unit, reference, decimals } = input.quantity;
  const readers = shownUnit(unit, choice);
  const known = quantitiesIn({ ...input, unit });
  const quantity: AxisQuantity = {
    title,
    unit: readers,
    decimals: decimalsInUnit(decimals, unit, readers),
    ...(reference === undefined ? {} : { reference }),
  };
  return {
    shown: { quantity, alt: retell(input.alt, choice, known), caption: retell(input.caption, choice, known) },
    into: converter(unit, readers),
    difference: converter(unit, readers, { difference: true }),
  };
}

function convertedBand({ title, lanes }: ComparedBand, into: (value: number) => number): ComparedBand {
  return {
    title,
    lanes: lanes.map(({ label, values }) => ({
      label,
      values: values.map((one) => ({ ...one, value: convertedValue(one.value, into) })),
    })),
  };
}

function convertedBound<B extends { value: number; estimate?: number; against?: number }>(
  bound: B,
  into: (value: number) => number,
): B {
  return {
    ...bound,
    value: into(bound.value),
    ...(bound.estimate === undefined ? {} : { estimate: into(bound.estimate) }),
    ...(bound.against === undefined ? {} : { against: into(bound.against) }),
  };
}

function convertedValue(value: CharacteristicValue, into: (value: number) => number): CharacteristicValue {
  return value.kind === 'between'
    ? { ...value, lower: into(value.lower), upper: into(value.upper) }
    : { ...value, value: into(value.value) };
}
