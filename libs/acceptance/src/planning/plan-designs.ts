import {
  type Design,
  type DesignFound,
  type DesignName,
  type Designs,
  type DesignsAsked,
  isNotEvaluated,
} from '@breakbook/lab';
import { boundDesign } from './designs/bound-designs.js';
import { failuresDesign, zeroFailureDesign } from './designs/count-designs.js';
import { raisedDesign } from './designs/raised-design.js';
import { stagedDesign } from './designs/staged-design.js';
import { staircaseDesign } from './designs/staircase-design.js';
import { type Drawn, type DrawnOrNot, type Setting, settingOf } from './setting.js';

/** Every design, in the order in which they are set side by side. */
const DESIGNS: readonly (readonly [DesignName, (setting: Setting) => DrawnOrNot])[] = [
  ['zero failures', zeroFailureDesign],
  ['failures at most', failuresDesign],
  ['zero failures, raised load', raisedDesign],
  ['normal bound', (setting) => boundDesign(setting, 'normal')],
  ['lognormal bound', (setting) => boundDesign(setting, 'lognormal')],
  ['Weibull bound', (setting) => boundDesign(setting, 'weibull')],
  ['staged bound', stagedDesign],
  ['staircase', staircaseDesign],
];

/**
 * By which tests could this claim be shown, and what would each need and risk? Every design with its number of specimens,
 * cost, the chances that a good and a bad lot pass, and its curve; or the reason why it cannot be had.
 *
 * The guess decides only how many specimens are worth breaking: no design keeps its confidence by it.
 */
export function planDesigns(asked: DesignsAsked): Designs {
  const setting = settingOf(asked);
  const { guess, lotSize } = setting;
  return {
    asked,
    guess,
    designs: DESIGNS.map(([design, draw]): Design => {
      const drawn = draw(setting);
      if (isNotEvaluated(drawn)) return { design, ...drawn };
      return { design, ...drawn, ...costOf(asked, drawn) };
    }),
    notes: [
      'A design is declared in the plan before the first run. Which of them would have passed is no question after it.',
      ...(asked.earlier
        ? [`Mean and scatter are estimates from ${guess.from}; the next lot need not be like them.`]
        : [
            'Mean and scatter are guesses. They decide how many specimens are worth breaking, and no claim rests on them.',
          ]),
      ...(asked.good === undefined
        ? [
            'How much of a good lot lies below the limit follows from mean and scatter by the distribution each design assumes; where it assumes none, by the one that puts most there.',
          ]
        : []),
      ...(lotSize === undefined
        ? []
        : [
            `A good lot is one that the process expected has made; a bad one has the fewest bad units among ${lotSize} that make the claim untrue.`,
          ]),
    ],
  };
}

/** What the design costs, on average where it has stages and the lot is good. */
function costOf({ cost }: DesignsAsked, { n, expected }: Drawn): Pick<DesignFound, 'cost'> {
  if (!cost) return {};
  const broken = expected?.good ?? n;
  const { perSpecimen, currency, rigHoursPerRun } = cost;
  return {
    cost: {
      ...(perSpecimen === undefined ? {} : { specimens: broken * perSpecimen }),
      ...(currency === undefined ? {} : { currency }),
      ...(rigHoursPerRun === undefined ? {} : { rigHours: broken * rigHoursPerRun }),
    },
  };
}
