import type { Criterion, PlanLine } from './plans.js';

/** What is wrong within one plan line, and where. */
export interface SchemeProblem {
  path: (string | number)[];
  message: string;
}

/**
 * Do the numbers of a plan line fit each other? What can be told from the line alone: stages that add up, looks for each
 * stage, claims that may be looked at more than once, levels of a response, risks of claims of which any is enough.
 */
export function schemeProblems(line: PlanLine): SchemeProblem[] {
  return [
    ...stagesOf(line),
    ...combinationOf(line),
    ...line.criteria.flatMap((criterion, index) =>
      criterionProblems(line, criterion).map(({ path, message }) => ({ path: ['criteria', index, ...path], message })),
    ),
  ];
}

function stagesOf({ stages, specimens }: PlanLine): SchemeProblem[] {
  if (!stages) return [];
  const sum = stages.reduce((all, one) => all + one, 0);
  if (sum === specimens) return [];
  return [
    {
      path: ['stages'],
      message: `adds up to ${sum} specimens, and the line asks for ${specimens}; the stages share out the whole number`,
    },
  ];
}

function combinationOf({ combination, criteria }: PlanLine): SchemeProblem[] {
  if (combination?.rule !== 'any') return [];
  const risks = criteria.map((one) => ('confidence' in one ? 1 - one.confidence : undefined));
  const without = risks.indexOf(undefined);
  if (without >= 0)
    return [
      {
        path: ['combination'],
        message: `lets any criterion be enough, and ${criteria[without]?.criterion} claims no confidence, so the risk of choosing cannot be stated; combine by "all"`,
      },
    ];
  const joint = risks.reduce<number>((sum, risk) => sum + (risk ?? 0), 0);
  if (joint <= combination.jointRisk * (1 + 1e-9)) return [];
  return [
    {
      path: ['combination', 'jointRisk'],
      message: `is ${combination.jointRisk}, and the risks of the criteria add up to ${Number(joint.toFixed(6))}; raise their confidence, so that together they stay within it`,
    },
  ];
}

function criterionProblems(line: PlanLine, criterion: Criterion): SchemeProblem[] {
  switch (criterion.kind) {
    case 'failures at most':
      return countProblems(line, criterion);
    case 'response energy':
      return [...onlyOneLook(line), ...levelProblems(criterion)];
    case 'mean':
      return onlyOneLook(line);
    case 'zero failures':
      return (criterion.raised?.lowerShapes ?? []).some((shape) => shape >= (criterion.raised?.shape ?? 0))
        ? [
            {
              path: ['raised', 'lowerShapes'],
              message: `must be below the shape of ${criterion.raised?.shape} that the claim rests on`,
            },
          ]
        : [];
    default:
      return [];
  }
}

function countProblems(
  { stages, specimens }: PlanLine,
  { allowed, looks }: Extract<Criterion, { kind: 'failures at most' }>,
): SchemeProblem[] {
  if (allowed >= specimens)
    return [
      { path: ['allowed'], message: `allows ${allowed} failures of ${specimens} specimens, so nothing could fail it` },
    ];
  if (!looks)
    return stages
      ? [
          {
            path: ['looks'],
            message: `is missing: say for each of the ${stages.length} stages how many failures are accepted and how many rejected`,
          },
        ]
      : [];
  if (!stages) return [{ path: ['looks'], message: 'are given for stages that the line does not have' }];
  if (looks.length !== stages.length)
    return [{ path: ['looks'], message: `has ${looks.length} entries for ${stages.length} stages` }];
  const last = looks.at(-1);
  if (last && (last.reject !== last.accept + 1 || last.accept !== allowed))
    return [
      {
        path: ['looks', looks.length - 1],
        message: `is the last: it accepts the ${allowed} failures allowed and rejects one more, so that nothing is left open`,
      },
    ];
  const falling = looks.findIndex((look, index) => {
    const before = looks[index - 1];
    return before !== undefined && (look.accept < before.accept || look.reject < before.reject);
  });
  return falling < 0
    ? []
    : [
        {
          path: ['looks', falling],
          message: 'counts all failures so far, so its numbers cannot be below those before',
        },
      ];
}

/** Bounds and counts have schedules whose risk is known; the others may be looked at once. */
function onlyOneLook({ stages }: PlanLine): SchemeProblem[] {
  return stages
    ? [
        {
          path: ['kind'],
          message: 'may be looked at once only: no schedule of stages keeps its confidence; leave the stages out',
        },
      ]
    : [];
}

function levelProblems({ share, levels, step }: Extract<Criterion, { kind: 'response energy' }>): SchemeProblem[] {
  if (share < 0.5 && !levels)
    return [
      {
        path: ['levels'],
        message: `is missing: the level that breaks ${share} of the population is found only from levels spread beforehand; a staircase keeps near the median`,
      },
    ];
  if (share > 0.5)
    return [
      { path: ['share'], message: 'is above a half: a claim about strength is about the median or the weak end' },
    ];
  if ((levels === undefined) === (step === undefined))
    return [
      {
        path: ['step'],
        message: 'or levels must be given, and not both: the step of a staircase, or the levels planned',
      },
    ];
  return [];
}
