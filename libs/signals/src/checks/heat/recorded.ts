import { type Check, ControlMode, type HeatMethod, type Run } from '@breakbook/lab';
import { sameDimension, valueIn } from '@breakbook/units';
import { inUnit } from '../../features/words.js';
import type { Finding } from '../finding.js';

const grams = inUnit('g');
type Asked = NonNullable<HeatMethod['parameters']['recorded']>[number];

/**
 * Was recorded beside the trace what decides how hot a rim gets and what the run says? Each is looked at where the method asks
 * for it, or where somebody recorded it.
 */
export function recordedBeside({ parameters }: HeatMethod, run: Run): Finding[] {
  const asked = (what: Asked) => parameters.recorded?.includes(what) ?? false;
  return [
    ...padsNamed(run, asked('pads')),
    ...padMass(run, asked('pad mass')),
    ...padsAfter(run, asked('pads after')),
    ...tubeNoted(run, asked('tube')),
    ...drivenAsAsked(run, parameters.control),
  ].map((check) => ({ check }));
}

/** A condition of the run that is text; undefined where it was not recorded so. */
function condition({ conditions }: Run, name: string): string | undefined {
  const said = conditions[name];
  return typeof said === 'string' ? said : undefined;
}

function padsNamed(run: Run, asked: boolean): Check[] {
  const named = { check: 'pads named', question: 'Is it recorded which pads braked?' };
  const pads = condition(run, 'pads');
  if (pads !== undefined) return [{ ...named, outcome: 'pass', finding: `Yes: ${pads}.` }];
  if (!asked) return [];
  return [
    {
      ...named,
      outcome: 'flag',
      finding: 'No condition "pads" is recorded.',
      action: 'Record make, compound and lot of the pads: another pad puts another heat into the track.',
    },
  ];
}

function padMass(run: Run, asked: boolean): Check[] {
  const named = { check: 'pad mass', question: 'Was the loss of mass of the pads measured?' };
  const keyed = (of: string) =>
    run.measurements.filter((one) => one.of === of && sameDimension(one.quantity.unit, 'g'));
  const [before, after] = [keyed('padMassBefore'), keyed('padMassAfter')];
  if (!asked && before.length + after.length === 0) return [];
  if (before.length === 0 || before.length !== after.length)
    return [
      {
        ...named,
        outcome: 'flag',
        finding: `Keyed are ${before.length} of padMassBefore and ${after.length} of padMassAfter.`,
        action: 'Weigh the pads before and after, and key both: what they lost tells whether they were worn out.',
      },
    ];
  const sum = (all: typeof before) => all.reduce((total, { quantity }) => total + valueIn(quantity, 'g'), 0);
  const lost = sum(before) - sum(after);
  if (lost > 0) return [{ ...named, outcome: 'pass', finding: `They lost ${grams(lost)} of ${grams(sum(before))}.` }];
  return [
    {
      ...named,
      outcome: 'flag',
      finding: `They weighed ${grams(sum(before))} before and ${grams(sum(after))} after: nothing was lost.`,
      action: 'Find out whether the two were exchanged, or other pads were weighed; braking wears pads.',
    },
  ];
}

/** Words by which a pad found after the run was no longer the pad of the method. */
const SPENT = /(?<!not )(?<!un)glazed|melted|backing|worn (?:out|through)/i;

function padsAfter(run: Run, asked: boolean): Check[] {
  const named = { check: 'pads after', question: 'Were the pads still pads when it ended?' };
  const after = condition(run, 'pads after');
  if (after === undefined)
    return asked
      ? [
          {
            ...named,
            outcome: 'flag',
            finding: 'No condition "pads after" is recorded.',
            action: 'Look at the pads, and record whether they wore evenly, glazed, melted, or wore to the backing.',
          },
        ]
      : [];
  if (!SPENT.test(after)) return [{ ...named, outcome: 'pass', finding: `Found: ${after}.` }];
  return [
    {
      ...named,
      outcome: 'flag',
      finding: `Found: ${after}.`,
      action:
        'Decide whether the pads gave out before the rim. Then the run shows what the rim held at least, or, where they changed early, nothing.',
    },
  ];
}

const TUBES = /latex|butyl|tubeless|polyurethane|\bTPU\b/i;

function tubeNoted(run: Run, asked: boolean): Check[] {
  const named = { check: 'tube noted', question: 'Is it recorded what held the air: latex, butyl, or no tube?' };
  const [tube, tyre] = [condition(run, 'tube'), condition(run, 'tyre')];
  const said = [tube, tyre].find((one) => one !== undefined && TUBES.test(one));
  if (said !== undefined) return [{ ...named, outcome: 'pass', finding: `Yes: ${said}.` }];
  if (!asked) return [];
  return [
    {
      ...named,
      outcome: 'flag',
      finding:
        tyre === undefined && tube === undefined
          ? 'Neither a condition "tyre" nor "tube" is recorded.'
          : `The record says only: ${[tyre, tube].filter((one) => one !== undefined).join('; ')}.`,
      action:
        'Record the tyre, and whether its tube was latex, butyl or polyurethane, or it was tubeless: they let go at unlike heat.',
    },
  ];
}

/** A run driven otherwise than its method asks would be pooled with runs that it does not compare with. */
function drivenAsAsked(run: Run, control: ControlMode): Check[] {
  const named = { check: 'control mode', question: 'Was the brake driven as the method asks?' };
  const said = condition(run, 'control mode');
  if (said === undefined) return [];
  if (said === control) return [{ ...named, outcome: 'pass', finding: `Yes, at ${control}.` }];
  const known = ControlMode.options.some((one) => one === said);
  return [
    {
      ...named,
      outcome: known ? 'fail' : 'flag',
      finding: `The record says "${said}"; the method asks for ${control}.`,
      action: known
        ? 'Give the run to a method of that control. Lives under different control are not comparable and are not pooled.'
        : `Record the control mode as one of ${ControlMode.options.join(', ')}.`,
    },
  ];
}
