import type { StaircaseInput } from '@breakbook/figures';
import { type CriterionOf, isNotEvaluated, type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { converter } from '@breakbook/units';
import { type JudgedLot, limitOf, lineOf, resultOf, runsOf } from '../content/judged-lot.js';
import { PLAIN, type Printing } from '../words/printing.js';
import { both, measuredInWords } from '../words/units.js';
import { axisOf } from './quantity.js';

/**
 * The strikes of a plan line one after the other, each at its level and with what became of the specimen: where the line
 * asks for the load at which a share of the population breaks. Undefined where it asks for no such thing.
 */
export function staircaseOf(
  judged: JudgedLot,
  line: string,
  printing: Printing = PLAIN,
): StaircaseInput | NotEvaluated | undefined {
  const { say, counted, units } = printing;
  const found = lineOf(judged, line);
  const asked = found.line.criteria.find(
    (one): one is CriterionOf<'response energy'> => one.kind === 'response energy',
  );
  if (!asked) return undefined;
  const { characteristic } = limitOf(judged.bundle, asked.limit);
  const claim = runsOf(judged, found).filter(({ entry }) => entry?.inClaim);
  const results = claim.flatMap((one) => resultOf(one, characteristic) ?? []);
  const strikes = claim.flatMap((one) => {
    const value = resultOf(one, characteristic)?.value;
    return value && !isNotEvaluated(value) && (value.kind === 'atLeast' || value.kind === 'atMost')
      ? [{ label: one.run.specimen, level: value.value, broke: value.kind === 'atMost' }]
      : [];
  });
  const [first] = results;
  if (!first || strikes.length < claim.length)
    return notEvaluated(
      `${claim.length - strikes.length} of ${counted(claim.length, 'specimen')} were not struck once at one level`,
      'each specimen of the claim is struck once',
    );
  const { title, unit } = first;
  const into = converter(unit, units.of(unit));
  const criterion = found.result.criteria.find((one) => one.criterion === asked.criterion);
  const half = asked.share === 0.5 ? criterion?.bound?.estimate : undefined;
  const printed = (value: number) => both(measuredInWords({ value: { kind: 'exact', value }, unit }, printing));
  return {
    title: say('Strikes one after the other, {title} of lot {lot}', { title, lot: judged.bundle.lot.lot }),
    alt: [
      ...strikes.map(({ label, level, broke }) =>
        say('{specimen} at {level}: {what}', {
          specimen: label,
          level: printed(level),
          what: say(broke ? 'broke' : 'held'),
        }),
      ),
      ...(half === undefined ? [] : [say('half break at {value}', { value: printed(half) })]),
    ].join('; '),
    caption: say('{specimens} of the claim in the order recorded, each struck once. Method {method} rev. {revision}.', {
      specimens: counted(strikes.length, 'specimen'),
      method: found.method.method,
      revision: found.method.revision,
    }),
    quantity: axisOf(results, { title, unit }, units),
    strikes: strikes.map((one) => ({ ...one, level: into(one.level) })),
    ...(half === undefined ? {} : { estimate: into(half) }),
  };
}
