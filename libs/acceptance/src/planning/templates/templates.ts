import type { CriterionOf, PlanTemplate, TemplateName } from '@breakbook/lab';

/** A limit's place in a template: the criteria that rest on it once it is filled. */
export interface Place {
  place: string;
  about: string;
  needed: boolean;
  characteristic: string;
  /** What is claimed against it; a limit without any is judged for each specimen and shown. */
  criteria: readonly ('every specimen' | 'tolerance bound' | 'zero failures')[];
}

/** A draft of a plan, as data. */
export interface Draft extends Omit<PlanTemplate, 'limits' | 'claims'> {
  places: readonly Place[];
  lineTitle: string;
  distribution?: CriterionOf<'tolerance bound'>['distribution'];
  modeSet: string;
  censoring: string;
  /** What is claimed of which things, such as that rims hold the pressure of the limit. */
  things: string;
  hold: string;
  /** What the claim says beside it. */
  beside?: string;
}

/** The three tests of the lab. Numbers are proposals (common practice, no source): the claim decides them. */
export const DRAFTS: Record<TemplateName, Draft> = {
  burst: {
    template: 'burst',
    title: 'Release of a lot: strength under pressure',
    about:
      'Rims are filled with water and raised to burst. Each must hold the outside limit, and a Weibull lower bound must clear it.',
    characteristic: 'burstPressure',
    lineTitle: 'Strength under pressure',
    specimens: 8,
    coverage: 0.9,
    confidence: 0.95,
    distribution: 'weibull',
    places: [
      {
        place: 'strength',
        about: 'The pressure that a rim must hold, "at least"',
        needed: true,
        characteristic: 'burstPressure',
        criteria: ['every specimen', 'tolerance bound'],
      },
      {
        place: 'own',
        about: 'A stricter limit of the maker, judged for each specimen and claimed of nothing',
        needed: false,
        characteristic: 'burstPressure',
        criteria: [],
      },
    ],
    modeSet: 'only a broken rim counts as failure; a tyre or seal that let go on a sound rim counts as "at least"',
    censoring: 'values known from one side enter as "at least"',
    things: 'Rims',
    hold: 'hold the pressure of the limit',
  },
  'brake heat': {
    template: 'brake heat',
    title: 'Release of a lot: brake heat',
    about:
      'A brake is dragged until the rim gives way or the programme ends. None may give way before the limit, so that survivors need no end.',
    characteristic: 'energySurvived',
    lineTitle: 'Drag until failure or the end of the programme',
    specimens: 5,
    coverage: 0.6,
    confidence: 0.9,
    places: [
      {
        place: 'heat',
        about: 'The braking energy that a rim must take, "at least"',
        needed: true,
        characteristic: 'energySurvived',
        criteria: ['every specimen', 'zero failures'],
      },
      {
        place: 'own',
        about: 'A stricter limit of the maker, judged for each specimen and claimed of nothing',
        needed: false,
        characteristic: 'energySurvived',
        criteria: [],
      },
    ],
    modeSet: 'only the rim counts as failure; a tube, tyre or pad that let go on a sound rim counts as "at least"',
    censoring: 'rims that survive the programme enter as "at least"',
    things: 'Rims',
    hold: 'take the braking of the limit before the rim gives way',
  },
  impact: {
    template: 'impact',
    title: 'Release of a lot: impact',
    about:
      'Each wheel is struck once. None may crack, delaminate or lose a spoke, and those tested must stay true where a limit says so.',
    characteristic: 'failureEnergy',
    lineTitle: 'One strike, one wheel each',
    specimens: 5,
    coverage: 0.6,
    confidence: 0.9,
    places: [
      {
        place: 'strike',
        about: 'The energy of a strike that a wheel must survive, "at least"',
        needed: true,
        characteristic: 'failureEnergy',
        criteria: ['every specimen', 'zero failures'],
      },
      {
        place: 'lateral',
        about: 'By how much lateral run-out may grow, "at most"',
        needed: false,
        characteristic: 'lateralRunOutChange',
        criteria: ['every specimen'],
      },
      {
        place: 'radial',
        about: 'By how much radial run-out may grow, "at most"',
        needed: false,
        characteristic: 'radialRunOutChange',
        criteria: ['every specimen'],
      },
    ],
    modeSet: 'crack, delamination and broken spoke count as failure; marks and a wheel out of true do not',
    censoring: 'wheels found whole after their strike enter as "at least"',
    things: 'Wheels',
    hold: 'survive one strike at the limit',
    beside: '; of those tested, run-out is judged one by one',
  },
};
