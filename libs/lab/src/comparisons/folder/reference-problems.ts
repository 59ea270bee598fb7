import { type Problem, shown } from '../../problems.js';
import type { ComparisonDocument } from '../case.js';
import type { Reference } from '../references.js';
import { type Known, noFeature, noSpecimen, type Say } from './known.js';

/** Is the reference that is declared the one that is here, and are its units specimens of known making of these lots? */
export function referenceProblems(document: ComparisonDocument, known: Known, say: Say): Problem[] {
  const { comparison } = document;
  const asked = {
    reference: comparison.compared.what === 'items with a reference' ? comparison.compared.reference : undefined,
    alternative: comparison.alternative?.reference,
  };
  return (['reference', 'alternative'] as const).flatMap((name) => {
    const wanted = asked[name];
    const given = document[name];
    if (!wanted && !given) return [];
    if (!wanted)
      return [say('state.conflict', `/${name}`, 'nothing is declared that would be compared with it. Take it out.')];
    const called = `${wanted.reference} rev. ${wanted.revision}`;
    if (!given)
      return [say('body.missing-field', `/${name}`, `${called} is declared, and its units are not here. Add them.`)];
    const { reference, revision } = given;
    if (reference !== wanted.reference || revision !== wanted.revision)
      return [
        {
          ...say(
            'state.conflict',
            `/${name}/reference`,
            `this is ${reference} rev. ${revision}, and ${called} is declared. A reference is frozen: add the one that was declared.`,
            `${reference} rev. ${revision}`,
          ),
          expected: called,
        },
      ];
    return unitProblems(given, document, `/${name}`, known, say);
  });
}

function unitProblems(
  reference: Reference,
  { comparison }: ComparisonDocument,
  at: string,
  { specimens }: Known,
  say: Say,
): Problem[] {
  const declared = new Set(comparison.features.map(({ feature }) => feature));
  return [
    ...(reference.product === comparison.product
      ? []
      : [
          say(
            'state.conflict',
            `${at}/product`,
            `the reference is of product ${shown(reference.product)}, and the comparison is of ${comparison.product}.`,
            reference.product,
          ),
        ]),
    ...(Date.parse(reference.frozenAt) <= Date.parse(comparison.declaredAt)
      ? []
      : [
          say(
            'state.conflict',
            `${at}/frozenAt`,
            `the reference was frozen at ${reference.frozenAt}, after the comparison was declared at ${comparison.declaredAt}. What is compared with is chosen first.`,
            reference.frozenAt,
          ),
        ]),
    ...reference.units.flatMap(({ specimen, lot, serial }, index) => {
      const place = `${at}/units/${index}`;
      const unit = specimens.get(specimen);
      if (!unit) return [noSpecimen(say, `${place}/specimen`, specimen)];
      if (unit.lot !== lot)
        return [
          say('state.conflict', `${place}/lot`, `specimen ${specimen} is of lot ${unit.lot}, not of ${lot}.`, lot),
        ];
      if (unit.origin === 'suspect')
        return [
          say(
            'state.conflict',
            `${place}/specimen`,
            `specimen ${specimen} was received as suspect; a reference is made of units of known making.`,
            specimen,
          ),
        ];
      return serial === undefined || serial === unit.serial
        ? []
        : [
            say(
              'state.conflict',
              `${place}/serial`,
              `specimen ${specimen} bears ${unit.serial === undefined ? 'no serial' : `serial ${shown(unit.serial)}`}, not ${shown(serial)}.`,
              serial,
            ),
          ];
    }),
    ...Object.keys(reference.variants?.features ?? {}).flatMap((feature) =>
      declared.has(feature) ? [] : [noFeature(say, `${at}/variants/features/${feature}`, feature, declared)],
    ),
  ];
}
