import type { Characteristic, MethodCharacteristic, Step, UncertaintyBudget } from '@breakbook/lab';
import {
  type CombinedUncertainty,
  combineUncertainty,
  coverageOfParts,
  type ErrorPart,
  standardUncertainty,
} from '@breakbook/statistics';
import { convert, printSignificant, unitSymbol } from '@breakbook/units';

/** Standard uncertainty of the sensor on a channel, from the calibration in force, in the channel's unit. */
export interface ChannelUncertainty {
  u: number;
  unit: string;
  calibration: string;
}

/** What the budget of one characteristic draws on. */
export interface BudgetInput {
  /** In the characteristic's unit. */
  value: number;
  calibrations: ReadonlyMap<string, ChannelUncertainty>;
  /** How far the characteristic moves, in its own unit, per unit of this channel; undefined where it does not follow it. */
  sensitivity: (channel: string) => number | undefined;
}

/** A part of the error in the characteristic's unit; its sign says which way it moves the value. */
interface Source {
  /** Of its own in the budget: two components may carry one name. */
  key: string;
  name: string;
  u: number;
  sign: 1 | -1;
  part: ErrorPart;
}

/**
 * How uncertain is this characteristic, by the budget of its method? U = k · u, with u combined from the components, those
 * named as correlated by their coefficient. k is the method's; or, where it asks for a coverage, the factor with which the
 * distributions of the parts reach it. A budget with a component that cannot be had gives no uncertainty at all rather than
 * one too small.
 *
 * Source: JCGM 100:2008 (GUM), 5.1.2, 5.2.2 and 6.2.1; for a coverage JCGM 101:2008, 5.
 */
export function budgetOf(
  { uncertainty, unit }: MethodCharacteristic,
  input: BudgetInput,
): { uncertainty?: NonNullable<Characteristic['uncertainty']>; step?: Step } {
  if (!uncertainty) return {};
  const question = 'How sure is it?';
  const none = (because: string) => ({
    step: { question, numbers: {}, answer: `No uncertainty is stated: ${because}.` },
  });
  const sources: Source[] = [];
  for (const [index, component] of uncertainty.components.entries()) {
    const source = sourceOf(component, unit, input);
    if (typeof source === 'string') return none(source);
    if (source) sources.push({ key: String(index), name: component.name, ...source });
  }
  if (sources.length === 0) return {};

  const pairs = pairsOf(uncertainty, sources);
  const combined = combinedOf(sources, pairs);
  if (!combined) return none('its correlations cannot all hold');
  // Parts that err together may cancel altogether.
  if (combined.standard === 0) return none('its correlated parts cancel');
  const factor = factorOf(uncertainty, sources, pairs, combined.standard);
  if (typeof factor === 'string') return none(factor);

  const { k, coverage, numbers, by } = factor;
  const components = sources.map(({ name, u }) => ({ name, u }));
  const expanded = k * combined.standard;
  const count = `${components.length} ${pairs.length > 0 ? '' : 'independent '}component${components.length === 1 ? '' : 's'}`;
  const together =
    pairs.length > 0 ? `, ${pairs.length === 1 ? 'two of which err' : 'some of which err'} together` : '';
  return {
    uncertainty: { expanded, k, ...(coverage === undefined ? {} : { coverage }), components },
    step: {
      question,
      numbers: {
        ...Object.fromEntries(components.map(({ name, u }) => [`u, ${name}`, u])),
        ...Object.fromEntries(pairs.map(({ names, r }) => [`r, ${names.join(' and ')}`, r])),
        ...numbers,
        k,
        U: expanded,
      },
      answer: `U = ${printSignificant(expanded, 2)} ${unitSymbol(unit)} with k = ${k}${by}, from ${count}${together}.`,
    },
  };
}

function combinedOf(sources: readonly Source[], pairs: readonly Pair[]): CombinedUncertainty | undefined {
  try {
    return combineUncertainty(
      sources.map(({ key, u, sign }) => ({ name: key, u, sensitivity: sign })),
      pairs,
    );
  } catch (error) {
    // Of three parts, two may be said to follow the third and to go against each other.
    if (error instanceof RangeError) return undefined;
    throw error;
  }
}

/** Two sources that err together, by their keys. */
interface Pair {
  between: [string, string];
  names: [string, string];
  r: number;
}

/** The correlations between components that bear on this value. */
function pairsOf({ correlations = [] }: UncertaintyBudget, sources: readonly Source[]): Pair[] {
  const keyOf = (name: string) => sources.find((one) => one.name === name)?.key;
  return correlations.flatMap(({ between: [one, other], r }) => {
    const [a, b] = [keyOf(one), keyOf(other)];
    return a === undefined || b === undefined ? [] : [{ between: [a, b], names: [one, other], r }];
  });
}

/** k is printed with two decimals, and is never smaller than what covers. */
const DECIMALS = 100;

function factorOf(
  { k, coverage }: UncertaintyBudget,
  sources: readonly Source[],
  pairs: readonly Pair[],
  standard: number,
): { k: number; coverage?: number; numbers: Step['numbers']; by: string } | string {
  if (k !== undefined) return { k, numbers: {}, by: '' };
  if (coverage === undefined) throw new Error('a budget has k or coverage');
  const paired = new Set(pairs.flatMap(({ between }) => between));
  const together = sources.filter(({ key }) => paired.has(key));
  if (together.some(({ part }) => part.shape !== 'normal'))
    return 'a coverage of parts that err together is known for normal parts only, and one of these has bounds';
  const alone = sources.filter(({ key }) => !paired.has(key));
  // Normal parts that err together sum to a normal part: what is left of the variance is theirs.
  const rest = standard ** 2 - alone.reduce((sum, { u }) => sum + u * u, 0);
  const parts: ErrorPart[] = alone.map(({ part }) => part);
  if (together.length > 0 && rest > 0) parts.push({ shape: 'normal', u: Math.sqrt(rest) });
  const factor = Math.ceil((DECIMALS * coverageOfParts(parts, coverage)) / standard) / DECIMALS;
  return {
    k: factor,
    coverage,
    numbers: { coverage },
    by: ` for ${printSignificant(100 * coverage, 3)} % by the distributions of the parts`,
  };
}

type Component = UncertaintyBudget['components'][number];

/** A component in the characteristic's unit; undefined where the value does not hang on it, text where it cannot be had. */
function sourceOf(
  component: Component,
  unit: string,
  input: BudgetInput,
): Pick<Source, 'u' | 'sign' | 'part'> | undefined | string {
  const normal = (u: number, sign: 1 | -1 = 1) =>
    u > 0 ? { u, sign, part: { shape: 'normal' as const, u } } : undefined;
  const inUnit = (value: number, from: string) => convert(value, from, unit, { difference: true });
  switch (component.from) {
    case 'calibration': {
      const sensitivity = input.sensitivity(component.channel);
      // A sensor that the value does not hang on, such as the cooler of two, adds nothing.
      if (sensitivity === 0) return undefined;
      const calibration = input.calibrations.get(component.channel);
      if (!calibration) return `no calibration is in force for channel ${component.channel}`;
      if (sensitivity === undefined) return `the value does not follow channel ${component.channel} in proportion`;
      return normal(Math.abs(sensitivity) * calibration.u, sensitivity < 0 ? -1 : 1);
    }
    case 'half width': {
      const { halfWidth, distribution: shape } = component;
      const u = inUnit(standardUncertainty(halfWidth, shape), component.unit);
      return { u, sign: 1, part: { shape, halfWidth: inUnit(halfWidth, component.unit) } };
    }
    case 'relative half width': {
      const { halfWidth, distribution: shape } = component;
      const size = Math.abs(input.value);
      if (size === 0) return undefined;
      return { u: standardUncertainty(halfWidth, shape) * size, sign: 1, part: { shape, halfWidth: halfWidth * size } };
    }
    case 'standard':
      return normal(inUnit(component.u, component.unit));
  }
}
