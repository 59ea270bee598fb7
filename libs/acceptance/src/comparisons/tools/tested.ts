import type {
  CharacteristicComparison,
  ComparedValue,
  Comparison,
  ComparisonLevel,
  ComparisonTool,
  DeclaredCharacteristic,
  ItemFinding,
  NotEvaluated,
  Step,
} from '@breakbook/lab';
import { inconclusive } from '../words.js';

/** What a tool is asked of one declared characteristic. */
export interface ToolQuestion<T extends ComparisonTool = ComparisonTool> {
  declared: DeclaredCharacteristic;
  tool: T;
  comparison: Pick<Comparison, 'power' | 'seed'>;
  reference: readonly ComparedValue[];
  items: readonly ComparedValue[];
  /** How both sides are named in sentences. */
  names: { reference: string; items: string };
}

/** What it comes to at one level: everything but p. */
export type AtLevel = Pick<CharacteristicComparison, 'bounds' | 'effect' | 'smallestDifference' | 'modes'> & {
  finding: ComparisonLevel;
  sentence: string;
  /** Of the items that gave a value. */
  each: ItemFinding[];
  steps: Step[];
};

/** A tool's answer in two parts: p first, and the rest once the correction has set the level it is held to. */
export interface Tested {
  p: number | NotEvaluated;
  pError?: number;
  at(level: number): AtLevel;
}

/** The same answer, with steps that came before its own. */
export function afterSteps(before: readonly Step[], tested: Tested): Tested {
  return {
    ...tested,
    at(level) {
      const found = tested.at(level);
      return { ...found, steps: [...before, ...found.steps] };
    },
  };
}

/** Whether a p reaches the level it is held to: 1/20 does reach 5 %, whatever a double makes of 1 - 19/20. */
export function reaches(p: number, level: number): boolean {
  return p <= level * (1 + 1e-9);
}

/** The strongest of several findings of one characteristic: a difference, then what could not be decided. */
export function togetherOf(findings: readonly ComparisonLevel[]): ComparisonLevel {
  return (['A', 'B', 'C', 'D'] as const).find((level) => findings.includes(level)) ?? 'E';
}

/** Why "consistent" is not said although no difference was found, if so. */
export function whyNotConsistent(
  { declared: { differenceThatMatters: matters } }: ToolQuestion,
  smallest: number | NotEvaluated,
): 'unknown' | 'too large' | undefined {
  if (matters === undefined) return undefined;
  if (typeof smallest !== 'number') return 'unknown';
  return smallest > matters ? 'too large' : undefined;
}

/** The answer of a tool that could not be used. */
export function undecided(question: ToolQuestion, because: NotEvaluated): AtLevel {
  const sentence = inconclusive(because, question.declared.title);
  return {
    finding: 'C',
    sentence,
    each: question.items.map(({ specimen }) => ({ specimen, level: 'C', sentence })),
    steps: [{ question: 'Can this be compared?', numbers: {}, answer: sentence }],
  };
}
