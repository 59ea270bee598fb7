import { sameDimension } from '@breakbook/units';
import type { Problem } from '../../problems.js';
import type { ComparisonDocument } from '../case.js';
import type { DeclaredCharacteristic } from '../declarations.js';
import { type Known, noFeature, noSpecimen, type Say } from './known.js';

/** Is it given by a method of the lots, and in a unit of its kind? */
export function characteristicProblems(
  { name, source, unit }: DeclaredCharacteristic,
  index: number,
  { lots }: Known,
  say: Say,
): Problem[] {
  if (source.from !== 'runs') return [];
  const at = `/comparison/characteristics/${index}`;
  const method = lots
    .flatMap(({ bundle }) => bundle.methods)
    .find((one) => one.method === source.method && one.revision === source.methodRevision);
  if (!method)
    return [
      say(
        'meta.unknown',
        `${at}/source/method`,
        `characteristic ${name} comes from ${source.method} rev. ${source.methodRevision}, which no lot of lots/ was tested by.`,
        `${source.method} rev. ${source.methodRevision}`,
      ),
    ];
  const given = method.characteristics.find(({ characteristic }) => characteristic === source.characteristic);
  if (!given)
    return [
      {
        ...say(
          'meta.unknown',
          `${at}/source/characteristic`,
          `${method.method} rev. ${method.revision} gives no ${source.characteristic}.`,
          source.characteristic,
        ),
        expected: method.characteristics.map(({ characteristic }) => characteristic).join(', '),
      },
    ];
  return unit === undefined || sameDimension(unit, given.unit)
    ? []
    : [
        {
          ...say(
            'unit.wrong-dimension',
            `${at}/unit`,
            `${source.characteristic} is in ${given.unit}, which cannot be told in ${unit}.`,
            unit,
          ),
          expected: `a unit of the kind of ${given.unit}`,
        },
      ];
}

/** Of specimens that are there, on features that are declared; a quantity where it is compared as one, in a unit of its kind. */
export function observationProblems(
  { comparison, observations }: ComparisonDocument,
  known: Known,
  say: Say,
): Problem[] {
  const declared = new Set(comparison.features.map(({ feature }) => feature));
  const unitOf = new Map(
    comparison.characteristics.flatMap(({ source, unit }) =>
      source.from === 'examination' && unit !== undefined ? [[source.feature, unit] as const] : [],
    ),
  );
  return observations.flatMap(({ specimen, feature, quantity }, index) => {
    const at = `/observations/${index}`;
    if (!known.specimens.has(specimen)) return [noSpecimen(say, `${at}/specimen`, specimen)];
    if (!declared.has(feature)) return [noFeature(say, `${at}/feature`, feature, declared)];
    const unit = unitOf.get(feature);
    if (unit === undefined) return [];
    if (!quantity)
      return [
        say(
          'body.missing-field',
          `${at}/quantity`,
          `feature ${feature} is compared as a number in ${unit}, so what was found is given as a quantity.`,
        ),
      ];
    return sameDimension(quantity.unit, unit)
      ? []
      : [
          {
            ...say(
              'unit.wrong-dimension',
              `${at}/quantity/unit`,
              `feature ${feature} is compared in ${unit}, and ${quantity.unit} is of another kind.`,
              quantity.unit,
            ),
            expected: `a unit of the kind of ${unit}`,
          },
        ];
  });
}
