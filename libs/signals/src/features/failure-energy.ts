import {
  type CharacteristicValue,
  type ImpactMethod,
  isNotEvaluated,
  type NotEvaluated,
  notEvaluated,
  type Step,
} from '@breakbook/lab';
import type { Computed } from './characteristic.js';
import { type ImpactSource, type Strike, targetOf } from './impact-source.js';
import { impactEnergy } from './impact-speed.js';
import { inUnit } from './words.js';

const joules = inUnit('J');

interface Blow {
  number: number;
  /** Brought by the striker, J. */
  energy: number;
  /** What a part that it damaged broke at, or below, J. */
  broke: number;
  found: 'whole' | 'damaged' | undefined;
}

/**
 * The energy at which a strike damages the part, J, as far as this wheel shows it:
 *
 * - found whole after a strike: at least the energy that strike brought;
 * - damaged by its first strike: at most that energy;
 * - rising energy at one point, damaged in the end: between the last strike it was found whole after and the one that
 *   damaged it. Damage may grow from strike to strike, so this is never pooled with wheels struck once;
 * - several points of one wheel: the weakest point counts, and the wheel is one specimen.
 *
 * Where nobody says how the part was found after a strike, the examination of the whole run decides: the value is what the
 * strikes brought, `ifBroken` what the same strikes say of a part found damaged.
 *
 * A strike inside the method's band about its target counts as a strike of that target where it damages: it is taken at
 * the smaller of target and energy brought, which is the cautious side.
 */
export function failureEnergy({ method, strikes }: ImpactSource): Computed {
  const { series } = method.parameters;
  const none = (value: NotEvaluated): Computed => ({ value, unit: 'J', steps: [], source: 'keyed' });
  if (series === 'single strike' && strikes.length > 1)
    return none(
      notEvaluated(
        `the method makes one strike on a specimen, and this run has ${strikes.length}`,
        'the run is made by a method for several strikes',
      ),
    );
  const blows: Blow[] = [];
  for (const strike of strikes) {
    const blow = blowOf(strike, method);
    if (isNotEvaluated(blow)) return none(blow);
    blows.push(blow);
    // What is struck after the damage says nothing of where it began.
    if (blow.found === 'damaged') break;
  }
  const known = series === 'several points' ? ofPoints(blows) : ofOnePoint(blows);
  const caution = cautionFor(series, strikes.length);
  return {
    ...known,
    unit: 'J',
    source: 'keyed',
    ...(caution === undefined ? {} : { caution }),
    steps: [
      ...(strikes.length === 1 && strikes[0] ? impactEnergy(strikes[0], method).steps : []),
      tableStep(blows),
      { question: 'Do other strikes bear on it?', numbers: { series }, answer: seriesAnswer(series, strikes.length) },
    ],
  };
}

function blowOf(strike: Strike, method: ImpactMethod): Blow | NotEvaluated {
  const { value } = impactEnergy(strike, method);
  if (isNotEvaluated(value))
    return notEvaluated(`strike ${strike.number}: ${value.notEvaluated.because}`, value.notEvaluated.possibleIf);
  if (value.kind === 'between') throw new Error('the energy of a strike is one number');
  const energy = value.value;
  const target = targetOf(strike, method);
  const inBand = Math.abs(energy - target) <= method.parameters.energyBand * target;
  const found = strike.passage?.found;
  return {
    number: strike.number,
    energy,
    broke: inBand ? Math.min(energy, target) : energy,
    found: found === 'not examined' ? undefined : found,
  };
}

type Known = Pick<Computed, 'value' | 'ifBroken'>;

/** One strike, or a rising energy at one point. */
function ofOnePoint(blows: readonly Blow[]): Known {
  const last = blows.at(-1) as Blow;
  const held = blows.filter((one) => one !== last && one.found === 'whole').map(({ energy }) => energy);
  const broken = brokeBetween(held.length > 0 ? Math.max(...held) : undefined, last.broke);
  if (last.found === 'damaged') return { value: broken };
  return {
    value: { kind: 'atLeast', value: Math.max(...blows.map(({ energy }) => energy)) },
    ifBroken: broken,
  };
}

/** Each point of a wheel has its own strength; the wheel holds what its weakest point holds. */
function ofPoints(blows: readonly Blow[]): Known {
  const damaged = blows.find(({ found }) => found === 'damaged');
  if (damaged) return { value: { kind: 'atMost', value: damaged.broke } };
  // Any point that nobody found whole may be the one that broke; where all were, the examination found what they missed.
  const unknown = blows.filter(({ found }) => found !== 'whole');
  return {
    value: { kind: 'atLeast', value: Math.min(...blows.map(({ energy }) => energy)) },
    ifBroken: { kind: 'atMost', value: Math.max(...(unknown.length > 0 ? unknown : blows).map(({ broke }) => broke)) },
  };
}

function brokeBetween(held: number | undefined, broke: number): CharacteristicValue {
  return held !== undefined && held < broke
    ? { kind: 'between', lower: held, upper: broke }
    : { kind: 'atMost', value: broke };
}

function cautionFor(series: ImpactMethod['parameters']['series'], strikes: number): string | undefined {
  if (strikes < 2) return undefined;
  return series === 'rising energy'
    ? `this is one wheel struck ${strikes} times: damage may have grown from strike to strike, so it is not pooled with wheels struck once`
    : `these are ${strikes} points of one wheel, which is one specimen`;
}

function seriesAnswer(series: ImpactMethod['parameters']['series'], strikes: number): string {
  if (strikes < 2) return 'No, it was struck once.';
  return series === 'rising energy'
    ? 'Yes: all were on one wheel at one point, and each may have weakened it for the next.'
    : 'Each was at its own point of one wheel; the weakest counts.';
}

function tableStep(blows: readonly Blow[]): Step {
  return {
    question: 'How was the part found after each strike?',
    numbers: Object.fromEntries(
      blows.map(({ number, energy, found }) => [`strike ${number}`, `${joules(energy)}, ${found ?? 'not stated'}`]),
    ),
    answer: 'Whole: it held that energy. Damaged: it broke at that or below. Not stated: the examination decides.',
  };
}
