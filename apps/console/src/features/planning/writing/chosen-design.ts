import type { DesignFound, DesignsAsked, RaisedLoad, ShownBy } from '@breakbook/lab';

/** What a design fixed, as the address of the page carries it on which its plan is written. */
export interface ChosenDesign {
  design: DesignFound['design'];
  /** What it was reckoned for. */
  limit: { value: number; unit: DesignsAsked['limit']['unit'] };
  specimens: number;
  coverage: number;
  confidence: number;
  population: 'process' | 'lot';
  shownBy: ChosenWay;
}

/** As a plan says it, but for the failure modes of a raised load, which its method has. */
export type ChosenWay =
  | Exclude<ShownBy, { kind: 'zero failures' }>
  | { kind: 'zero failures'; raised?: Omit<RaisedLoad, 'modes'> };

/** A design in one line of text. */
export function designText(found: DesignFound, asked: DesignsAsked): string {
  const { coverage, confidence, limit } = asked;
  const { design, n: specimens, population } = found;
  const chosen: ChosenDesign = {
    design,
    limit,
    specimens,
    coverage,
    confidence,
    population,
    shownBy: wayOf(found, asked),
  };
  return JSON.stringify(chosen);
}

/** The design that a text of an address tells; undefined where it tells none, such as one cut short on its way. */
export function designIn(text: string | null): ChosenDesign | undefined {
  if (text === null) return undefined;
  try {
    const told: unknown = JSON.parse(text);
    return isChosen(told) ? told : undefined;
  } catch {
    return undefined;
  }
}

/** Whatever else is wrong with it the service says when the plan is drafted. */
function isChosen(told: unknown): told is ChosenDesign {
  if (typeof told !== 'object' || told === null) return false;
  const { design, limit, specimens, coverage, confidence, shownBy } = told as Partial<Record<string, unknown>>;
  const numbers = [specimens, coverage, confidence, (limit as { value?: unknown } | undefined)?.value];
  return (
    typeof design === 'string' &&
    numbers.every((one) => typeof one === 'number') &&
    typeof (shownBy as { kind?: unknown } | undefined)?.kind === 'string'
  );
}

function wayOf(found: DesignFound, { raised, distribution, guess }: DesignsAsked): ChosenWay {
  switch (found.design) {
    case 'zero failures':
      return { kind: 'zero failures' };
    case 'zero failures, raised load':
      return { kind: 'zero failures', ...(raised ? { raised: raisedOf(raised, found) } : {}) };
    case 'failures at most':
      return { kind: 'failures at most', allowed: found.allowed ?? 1 };
    case 'normal bound':
      return { kind: 'tolerance bound', distribution: 'normal' };
    case 'lognormal bound':
      return { kind: 'tolerance bound', distribution: 'lognormal' };
    case 'Weibull bound':
      return { kind: 'tolerance bound', distribution: 'weibull' };
    case 'staged bound':
      return {
        kind: 'tolerance bound',
        distribution: distribution ?? 'weibull',
        ...(found.stages ? { stages: found.stages } : {}),
      };
    case 'staircase':
      // Steps of one standard deviation, as the design was reckoned.
      return { kind: 'response energy', step: Number(((guess?.mean ?? 1) * (guess?.cv ?? 1)).toPrecision(3)) };
  }
}

/** A plan prints what lower shapes would show: those that the design showed, or half of the one it rests on. */
function raisedOf(
  { loadRatio, shape, shapeSource, lowerShapes = [] }: NonNullable<DesignsAsked['raised']>,
  found: DesignFound,
): Omit<RaisedLoad, 'modes'> {
  const shown = found.lowerShapes?.map((one) => one.shape) ?? [];
  const lower = [...lowerShapes, ...shown].filter((one) => one < shape);
  return { loadRatio, shape, shapeSource, lowerShapes: lower.length > 0 ? [...new Set(lower)] : [shape / 2] };
}
