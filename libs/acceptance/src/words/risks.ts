import { isNotEvaluated, type LineRisk } from '@breakbook/lab';
import { counted } from './counted.js';
import { chanceInWords, percent } from './percent.js';

interface Point {
  share: number;
  chance: number;
}

/** What a rule by counts risks that claims no confidence: the share of bad units with which a lot still passes half the time. */
export function countRiskSentence({
  curve,
  allowed,
  n,
  size,
}: {
  curve: readonly Point[];
  allowed: number;
  n: number;
  size: number | undefined;
}): string {
  const said = [0.05, 0.1, 0.2].flatMap((share) => {
    const point = curve.find((one) => one.share >= share - 1e-9);
    return point ? [point] : [];
  });
  const points = [...new Map(said.map((one) => [one.share, one])).values()];
  return `It claims no confidence. With ${counted(n, 'specimen')}${allowed === 0 ? '' : ` and ${counted(allowed, 'failure')} allowed`}, a ${size === undefined ? 'lot' : `lot of ${size}`} of which ${points.map(({ share, chance }, index) => `${percent(Number(share.toPrecision(3)))} ${index === 0 ? 'does not conform passes with ' : 'with '}${chanceInWords(chance)}${index === 0 ? ' chance' : ''}`).join(', of which ')}.`;
}

/** What a criterion that claims a confidence risks at the edge of its claim. */
export function edgeRiskSentence({
  atLimit,
  keeps,
  population,
  unadjusted,
  looks,
}: {
  atLimit: Point;
  keeps: number;
  population: string;
  unadjusted?: number;
  looks?: number;
}): string {
  const schedule =
    looks === undefined || unadjusted === undefined
      ? ''
      : ` Over its ${looks} looks the schedule keeps ${percent(Number(keeps.toFixed(3)))}; with the stated confidence at each look it would keep ${percent(Number(unadjusted.toFixed(3)))}.`;
  return `A ${population} of which ${percent(Number(atLimit.share.toPrecision(3)))} lies below the limit, just what the claim denies, passes with ${chanceInWords(atLimit.chance)} chance.${schedule}`;
}

export function meanRiskSentence({ confidence, between }: { confidence: number; between: boolean }): string {
  return `A process whose mean lies just at the limit passes with ${chanceInWords(1 - confidence)} chance${between ? ' or less' : ''}, however its values scatter; of single specimens below it nothing is said.`;
}

/** All criteria of a line together. */
export function togetherSentence({
  several,
  criteria,
  rule,
  curve = [],
}: {
  several: boolean;
  criteria: number;
  rule: 'all' | 'any';
  curve?: readonly { share: number; atLeast: number; atMost: number }[];
}): string {
  if (several)
    return 'All criteria must be met, and they stand against several limits: a lot that is bad by one of them passes the line no more often than it passes that criterion.';
  const tenth = curve.find(({ share }) => share >= 0.1 - 1e-9);
  const between =
    tenth === undefined
      ? ''
      : ` A lot of which ${percent(Number(tenth.share.toPrecision(3)))} lies below the limit passes with ${tenth.atLeast === tenth.atMost ? chanceInWords(tenth.atMost) : `a chance between ${bare(tenth.atLeast)} and ${bare(tenth.atMost)}`}${tenth.atLeast === tenth.atMost ? ' chance' : ''}.`;
  if (criteria === 1) return `The line has one criterion.${between}`;
  return rule === 'all'
    ? `${criteria === 2 ? 'Both' : `All ${criteria}`} criteria must be met on the same specimens, so a lot passes no more often than it passes the hardest of them.${between}`
    : `Any of ${criteria} criteria is enough, so a lot passes at least as often as by the easiest of them.${between}`;
}

function bare(chance: number): string {
  return chance <= 0 ? '0' : chance >= 1 ? '1' : chanceInWords(chance);
}

export function planRiskSentence(lines: readonly LineRisk[]): string {
  const open = lines.flatMap(({ criteria }) => criteria).filter(isNotEvaluated).length;
  const several =
    lines.length > 1
      ? `${lines.length === 2 ? 'Both' : `All ${lines.length}`} lines must be met, each on its own specimens: a lot that is bad in what one line is about passes the plan no more often than it passes that line.`
      : 'The plan has one line, and what it risks is what that line risks.';
  return open === 0
    ? several
    : `${several} Of ${counted(open, 'criterion').replace('criterions', 'criteria')} nothing can be said, for the reasons given.`;
}
