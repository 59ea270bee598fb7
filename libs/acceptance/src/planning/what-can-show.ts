import {
  isNotEvaluated,
  type NotEvaluated,
  notEvaluated,
  type Showable,
  type ShowableAsked,
  type Step,
} from '@breakbook/lab';
import {
  binomialBound,
  chanceIfUntrue,
  type FittedDistribution,
  meanOverLimitFor,
  operatingCharacteristic,
  scatterFor,
  weibullDemonstrationLoad,
  zeroFailureBound,
} from '@breakbook/statistics';
import { printSignificant } from '@breakbook/units';
import { remembered } from '../remembered.js';
import { chanceInWords, counted, percent } from '../words/index.js';
import { REPLICATES, SEED } from './setting.js';
import { shareAccepted } from './share-accepted.js';

const FAMILIES = [
  ['normal', 'normal'],
  ['lognormal', 'lognormal'],
  ['weibull', 'Weibull'],
] as const;

/**
 * What can so many specimens prove? The reverse of `planDesigns`: what survivors show, how sure they make the claim, how
 * far above the limit the mean must lie for a bound to clear it, how much strengths may scatter, and to what load they
 * must go. One lot or the process, as asked; bounds always the process.
 */
export function whatCanShow(asked: ShowableAsked): Showable {
  return {
    asked,
    answers: [
      survivors(asked),
      oneFailure(asked),
      confidenceOf(asked),
      ...FAMILIES.flatMap(([family, name]) => margins(asked, family, name)),
      raisedLoad(asked),
    ],
  };
}

type Answer = Showable['answers'][number];

function open(question: string, { notEvaluated: why }: NotEvaluated): Answer {
  return { question, notEvaluated: why };
}

function populationOf({ lotSize }: ShowableAsked): string {
  return lotSize === undefined ? 'process' : `lot of ${lotSize}`;
}

function tooMany({ n, lotSize }: ShowableAsked): NotEvaluated | undefined {
  return lotSize !== undefined && n > lotSize
    ? notEvaluated(
        `${n} specimens cannot come from a lot of ${lotSize}`,
        'fewer specimens are planned, or the lot is larger',
      )
    : undefined;
}

function survivors(asked: ShowableAsked): Answer {
  const { n, confidence, lotSize } = asked;
  const question = `What do ${counted(n, 'specimen')} show if none fails?`;
  const shown = tooMany(asked) ?? zeroFailureBound(n, confidence, { lotSize });
  if (isNotEvaluated(shown)) return open(question, shown);
  return {
    question,
    numbers: { n, confidence, reliability: shown.reliability },
    formula: lotSize === undefined ? 'reliability = (1 - confidence)^(1/n)' : 'hypergeometric',
    source: 'Clopper and Pearson (1934), Biometrika 26, 404-413',
    answer: `At least ${down(shown.reliability)} of the ${populationOf(asked)} holds the limit, with ${percent(confidence)} confidence.`,
  } satisfies Step;
}

function oneFailure(asked: ShowableAsked): Answer {
  const { n, confidence, lotSize } = asked;
  const question = 'And if one fails?';
  const shown =
    tooMany(asked) ??
    (n < 2
      ? notEvaluated('the only specimen failed', 'at least 2 specimens are tested')
      : binomialBound({ n, failures: 1, confidence, lotSize }));
  if (isNotEvaluated(shown)) return open(question, shown);
  return {
    question,
    numbers: { n, failures: 1, confidence, reliability: shown.reliabilityLower },
    source: 'Clopper and Pearson (1934), Biometrika 26, 404-413',
    answer: `At least ${down(shown.reliabilityLower)} of the ${populationOf(asked)} holds the limit, with ${percent(confidence)} confidence, if the plan allowed one failure.`,
  } satisfies Step;
}

function confidenceOf(asked: ShowableAsked): Answer {
  const { n, coverage, confidence, lotSize } = asked;
  const question = `How sure do they make it that ${percent(coverage)} holds the limit?`;
  const beyond = tooMany(asked);
  if (beyond) return open(question, beyond);
  const reached = 1 - chanceIfUntrue(0, n, { share: coverage, lotSize });
  const enough = reached >= confidence * (1 - 1e-12);
  return {
    question,
    numbers: { n, coverage, 'confidence reached': reached },
    formula: lotSize === undefined ? 'confidence = 1 - coverage^n' : 'hypergeometric',
    source: 'Clopper and Pearson (1934), Biometrika 26, 404-413; Wilks (1942), Ann. Math. Statist. 13, 400-409',
    answer: `With none failing, ${down(reached)} sure${enough ? '' : `, less than the ${percent(confidence)} wanted: counts alone cannot show it with ${n}`}. The weakest of ${n} broken specimens is a lower bound for ${percent(coverage)} with the same confidence, whatever the distribution.`,
  } satisfies Step;
}

/** How far above the limit must the mean lie, and how much may strengths scatter, for this bound to clear it? */
function margins(asked: ShowableAsked, family: FittedDistribution, name: string): Answer[] {
  const { n, coverage, confidence, cv, meanOverLimit, power = 0.8 } = asked;
  if (cv === undefined && meanOverLimit === undefined) return [];
  const asking = [
    ...(cv === undefined ? [] : [`How far above the limit must the mean lie for a ${name} bound to clear it?`]),
    ...(meanOverLimit === undefined ? [] : [`How much may strengths scatter for a ${name} bound to clear it?`]),
  ];
  const all = (why: NotEvaluated) => asking.map((question) => open(question, why));
  if (n < 2) return all(notEvaluated('one strength says nothing about scatter', 'at least 2 specimens are broken'));
  const share = shareClearing({ n, coverage, confidence, family, power });
  if (share === undefined)
    return all(
      notEvaluated(
        `with ${counted(n, 'specimen')} the bound lies so low that no margin that can be told clears it with ${percent(power)} chance`,
        'more specimens are broken, or less is claimed',
      ),
    );
  const source = 'Faulkenberry and Weeks (1968), Technometrics 10, 343-348; Lawless (1978), Technometrics 20, 355-368';
  const given = { n, coverage, confidence, power, 'share below the limit': share };
  const answers: Answer[] = [];
  if (cv !== undefined) {
    const [question] = asking as [string];
    const mean = meanOverLimitFor(family, share, cv);
    answers.push(
      mean === undefined
        ? open(
            question,
            notEvaluated(
              `with so wide a scatter no mean is high enough for a ${name} bound from ${counted(n, 'specimen')}`,
              'strengths scatter less, or more specimens are broken',
            ),
          )
        : {
            question,
            numbers: { ...given, cv, 'mean over limit': mean },
            source,
            answer: `${percent(Math.ceil(1000 * (mean - 1) - 1e-9) / 1000)} above it, where strengths scatter by ${percent(cv)}, for ${chanceInWords(power)} chance that the bound clears it.`,
          },
    );
  }
  if (meanOverLimit !== undefined) {
    const question = asking.at(-1) as string;
    const widest = scatterFor(family, share, meanOverLimit);
    answers.push(
      widest === undefined
        ? open(
            question,
            notEvaluated(
              'the scatter asked for lies outside 0.1 % to 100 % of the mean',
              'the mean lies elsewhere above the limit',
            ),
          )
        : {
            question,
            numbers: { ...given, 'mean over limit': meanOverLimit, 'largest cv': widest },
            source,
            answer: `By no more than ${percent(Math.floor(1000 * widest + 1e-9) / 1000)} of the mean, where that is ${printSignificant(meanOverLimit, 3)} times the limit, for ${chanceInWords(power)} chance that the bound clears it.`,
          },
    );
  }
  return answers;
}

interface BoundToClear {
  n: number;
  coverage: number;
  confidence: number;
  family: FittedDistribution;
  power: number;
}

/** Of what share below the limit does this bound clear it with this chance? Kept, since a slider asks for it again. */
const shareClearing = remembered(200, ({ n, coverage, confidence, family, power }: BoundToClear) => {
  const replicates = Math.max(50, Math.min(REPLICATES, Math.round((REPLICATES * 10) / n)));
  return shareAccepted(
    (shares) => {
      const curve = operatingCharacteristic(
        { kind: 'tolerance-bound', n, distribution: family, coverage, confidence },
        shares,
        { seed: SEED, replicates },
      );
      // With two values or more a fitted bound has a curve.
      if (isNotEvaluated(curve)) throw new Error(curve.notEvaluated.because);
      return curve.acceptance;
    },
    power,
    family === 'weibull' ? 3 : 6,
  );
});

function raisedLoad({ n, coverage, confidence, shape }: ShowableAsked): Answer {
  const question = 'To what load would they have to go, none failing?';
  if (shape === undefined)
    return open(
      question,
      notEvaluated(
        'a load above the limit says something of the limit only by the shape of a Weibull distribution, and none was named',
        'the lowest plausible shape is given, from a source',
      ),
    );
  const found = weibullDemonstrationLoad({ shape, reliability: coverage, confidence, n });
  if (isNotEvaluated(found)) return open(question, found);
  const ratio = found.loadRatio;
  return {
    question,
    numbers: { n, coverage, confidence, shape, 'load ratio': ratio },
    formula: 'load ratio = (ln R(n) / ln coverage)^(1/shape)',
    source: 'Nelson (1985), J. Qual. Technol. 17, 140-146; Meeker and Escobar (1998), section 10.6',
    answer:
      ratio <= 1
        ? 'To the limit itself: so many survivors show the claim there.'
        : `To ${printSignificant(ratio, 4)} times the limit, if the shape is ${shape} or more and nothing fails otherwise than at the limit.`,
  } satisfies Step;
}

/** A share that is claimed is rounded down. */
function down(share: number): string {
  return percent(Math.floor(share * 1000 + 1e-9) / 1000);
}
