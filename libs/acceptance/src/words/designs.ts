import { printSignificant } from '@breakbook/units';
import { counted } from './counted.js';
import { withUnit } from './numbers.js';
import { chanceInWords, percent } from './percent.js';

interface Claim {
  coverage: number;
  confidence: number;
}
interface Point {
  share: number;
  chance: number;
}

/** What a design by counts takes and risks, as one sentence. */
export function countDesignSentence(given: {
  n: number;
  allowed: number;
  claim: Claim;
  lotSize: number | undefined;
  good: Point;
  bad: Point;
}): string {
  const { n, allowed, claim, lotSize } = given;
  return `Test ${counted(n, 'specimen')}; if ${allowed === 0 ? 'none fails' : `no more than ${allowed} ${allowed === 1 ? 'fails' : 'fail'}`}, ${shows(claim, lotSize === undefined ? 'process' : `lot of ${lotSize}`)}. ${passing(given)}`;
}

export function raisedDesignSentence(given: {
  n: number;
  claim: Claim;
  raised: { loadRatio: number; shape: number };
  good: Point;
  bad: Point;
  lowerShapes: readonly { shape: number; reliability: number }[];
}): string {
  const { n, claim, raised, lowerShapes } = given;
  const lower = lowerShapes.map(
    ({ shape, reliability }) => `${percent(Number(reliability.toFixed(3)))} at shape ${printSignificant(shape, 3)}`,
  );
  return `Load ${counted(n, 'specimen')} to ${raised.loadRatio} times the limit; if none fails, ${shows(claim, 'process')}, if the shape is ${raised.shape} or more${lower.length === 0 ? '' : ` (only ${lower.join(', ')})`}. ${passing(given)}`;
}

export function boundDesignSentence(given: { n: number; name: string; claim: Claim; good: Point; bad: Point }): string {
  const { n, name, claim } = given;
  return `Break ${counted(n, 'specimen')}; if the ${name} lower bound clears the limit, ${shows(claim, 'process')}. ${passing(given)}`;
}

export function stagedDesignSentence(given: {
  stages: readonly number[];
  claim: Claim;
  perStage: number;
  unadjusted: number;
  expected: { good: number; bad: number };
  good: Point;
  bad: Point;
}): string {
  const { stages, claim, perStage, unadjusted, expected } = given;
  const [first, ...more] = stages;
  return `Break ${first} specimens, then ${more.map((adds) => `${adds} more`).join(', then ')} where the bound has not cleared the limit; each look takes its bound with ${percent(Number(perStage.toFixed(4)))} confidence, so that the whole schedule keeps ${percent(claim.confidence)} (without that it would keep ${percent(Number(unadjusted.toFixed(3)))}). On average ${printSignificant(expected.good, 2)} are broken of a good lot and ${printSignificant(expected.bad, 2)} of a bad one. ${passing(given)}`;
}

export function staircaseDesignSentence(given: {
  n: number;
  confidence: number;
  good: Point;
  bad: Point;
  step: number;
  unit: string;
}): string {
  const { n, confidence, step, unit, good, bad } = given;
  return `Strike ${counted(n, 'specimen')} once each in steps of about ${withUnit(printSignificant(step, 2), unit)}; the lower limit shows, with ${percent(confidence)} confidence, at what load half of the process breaks, and nothing of the weakest. A lot as expected passes with ${chanceInWords(good.chance)} chance; one of which half lies below the limit, ${chanceInWords(bad.chance)}.`;
}

function shows({ coverage, confidence }: Claim, population: string): string {
  return `at least ${percent(coverage)} of the ${population} holds the limit, with ${percent(confidence)} confidence`;
}

function passing({ good, bad }: { good: Point; bad: Point }): string {
  return `A good lot passes with ${chanceInWords(good.chance)} chance, a bad one (${percent(Number(bad.share.toPrecision(3)))} below the limit) with ${chanceInWords(bad.chance)}.`;
}
