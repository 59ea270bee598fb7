import { type Characteristic, type MethodCharacteristic, type Step } from '@breakbook/lab';
import { combineUncertainty, standardUncertainty } from '@breakbook/statistics';
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
  /** Scatter that the computation itself shows, in the characteristic's unit: a fit has one. */
  ownError?: { name: string; u: number };
}

/**
 * How uncertain is this characteristic, by the budget of its method? U = k · u, with u combined from independent
 * components. A budget with a component that cannot be had gives no uncertainty at all rather than one too small.
 *
 * Source: JCGM 100:2008 (GUM), 5.1.2 and 6.2.1.
 */
export function budgetOf(
  { uncertainty, unit }: MethodCharacteristic,
  input: BudgetInput,
): { uncertainty?: NonNullable<Characteristic['uncertainty']>; step?: Step } {
  if (!uncertainty) return {};
  const question = 'How sure is it?';
  const sources: { name: string; u: number }[] = [];
  if (input.ownError) sources.push({ ...input.ownError, name: `own ${input.ownError.name}` });
  for (const [index, component] of uncertainty.components.entries()) {
    const u = standardOf(component, unit, input);
    if (typeof u === 'string') return { step: { question, numbers: {}, answer: `No uncertainty is stated: ${u}.` } };
    // Two components may carry one name.
    if (u > 0) sources.push({ name: `${index} ${component.name}`, u });
  }
  if (sources.length === 0) return {};

  const combined = combineUncertainty(sources);
  const components = combined.contributions.map(({ name, u }) => ({ name: name.replace(/^(\d+|own) /, ''), u }));
  const expanded = uncertainty.k * combined.standard;
  return {
    uncertainty: { expanded, k: uncertainty.k, components },
    step: {
      question,
      numbers: {
        ...Object.fromEntries(components.map(({ name, u }) => [`u, ${name}`, u])),
        k: uncertainty.k,
        U: expanded,
      },
      answer: `U = ${printSignificant(expanded, 2)} ${unitSymbol(unit)} with k = ${uncertainty.k}, from ${components.length} independent component${components.length === 1 ? '' : 's'}.`,
    },
  };
}

type Component = NonNullable<MethodCharacteristic['uncertainty']>['components'][number];

/** Standard uncertainty in the characteristic's unit, or why there is none. */
function standardOf(component: Component, unit: string, input: BudgetInput): number | string {
  switch (component.from) {
    case 'calibration': {
      const sensitivity = input.sensitivity(component.channel);
      // A sensor that the value does not hang on, such as the cooler of two, adds nothing.
      if (sensitivity === 0) return 0;
      const calibration = input.calibrations.get(component.channel);
      if (!calibration) return `no calibration is in force for channel ${component.channel}`;
      if (sensitivity === undefined) return `the value does not follow channel ${component.channel} in proportion`;
      return Math.abs(sensitivity) * calibration.u;
    }
    case 'half width':
      return convert(standardUncertainty(component.halfWidth, component.distribution), component.unit, unit, {
        difference: true,
      });
    case 'relative half width':
      return standardUncertainty(component.halfWidth, component.distribution) * Math.abs(input.value);
    case 'standard':
      return convert(component.u, component.unit, unit, { difference: true });
  }
}
