import { ControlMode, type Step } from '@breakbook/lab';
import type { HeatSource } from './heat-source.js';

/** What stands beside every life: how the brake was driven decides how much heat a rim takes in a given time. */
export function controlCaution({ method }: HeatSource): string {
  const { control } = method.parameters;
  const others = ControlMode.options.filter((one) => one !== control);
  return `driven at ${control}: not comparable with lives at ${others.join(' or ')}`;
}

export function controlStep({ method }: HeatSource): Step {
  const { control } = method.parameters;
  return {
    question: 'How was the brake driven?',
    numbers: { control },
    answer:
      control === 'constant lever weight'
        ? 'At constant lever weight: a rim with less friction takes less heat in the same time, so that time alone compares nothing.'
        : `At ${control}, as the method asks.`,
  };
}
