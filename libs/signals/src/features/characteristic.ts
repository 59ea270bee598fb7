import {
  type Characteristic,
  type CharacteristicValue,
  isNotEvaluated,
  type MethodCharacteristic,
  type NotEvaluated,
  type Step,
} from '@breakbook/lab';
import { convert, isDifference } from '@breakbook/units';
import { budgetOf, type ChannelUncertainty } from './budget.js';

/** A number with what led to it, in the unit it was computed in. */
export interface Computed {
  value: CharacteristicValue | NotEvaluated;
  /** What the record says where the examination finds the part broken, if that differs. */
  ifBroken?: CharacteristicValue | NotEvaluated;
  unit: string;
  steps: Step[];
  /** Change of the value per unit of a channel; undefined where it does not follow the channel in proportion. */
  sensitivity?: (channel: string) => number | undefined;
  /** The uncertainty by the method's budget, where the value does not follow its channels in proportion. */
  budget?: (wanted: MethodCharacteristic) => ReturnType<typeof budgetOf>;
  caution?: string;
  source?: Characteristic['source'];
}

/** A computed number as the method wants it: in its unit, with its uncertainty. */
export function characteristicOf(
  wanted: MethodCharacteristic,
  computed: Computed,
  calibrations: ReadonlyMap<string, ChannelUncertainty>,
): Characteristic {
  const inWanted = (one: CharacteristicValue | NotEvaluated) => converted(one, computed.unit, wanted);
  const value = inWanted(computed.value);
  const factor = convert(1, computed.unit, wanted.unit, { difference: true });
  const size = sizeOf(value);
  const budget = computed.budget
    ? computed.budget(wanted)
    : size === undefined
      ? {}
      : budgetOf(wanted, {
          value: size,
          calibrations,
          sensitivity: (channel) => {
            const change = computed.sensitivity?.(channel);
            return change === undefined ? undefined : change * factor;
          },
        });
  return {
    characteristic: wanted.characteristic,
    title: wanted.title,
    unit: wanted.unit,
    ...(wanted.reference ? { reference: wanted.reference } : {}),
    value,
    ...(computed.ifBroken ? { ifBroken: inWanted(computed.ifBroken) } : {}),
    ...(computed.caution === undefined ? {} : { caution: computed.caution }),
    ...(budget.uncertainty ? { uncertainty: budget.uncertainty } : {}),
    source: computed.source ?? 'trace',
    steps: budget.step ? [...computed.steps, budget.step] : computed.steps,
  };
}

function converted(
  value: CharacteristicValue | NotEvaluated,
  from: string,
  { unit, kind }: MethodCharacteristic,
): CharacteristicValue | NotEvaluated {
  if (isNotEvaluated(value)) return value;
  const into = (one: number) => convert(one, from, unit, { difference: isDifference(kind) });
  return value.kind === 'between'
    ? { kind: 'between', lower: into(value.lower), upper: into(value.upper) }
    : { kind: value.kind, value: into(value.value) };
}

/** The number on which shares of the value are taken: of two, the larger. */
function sizeOf(value: CharacteristicValue | NotEvaluated): number | undefined {
  if (isNotEvaluated(value)) return undefined;
  return value.kind === 'between' ? value.upper : value.value;
}
