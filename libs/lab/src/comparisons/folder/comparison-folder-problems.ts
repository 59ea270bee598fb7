import { type Problem, shown } from '../../problems.js';
import type { ComparisonDocument } from '../case.js';
import type { Reference } from '../references.js';
import { characteristicProblems, observationProblems } from './declared-problems.js';
import { type Known, knownIn, type LotOf, noSpecimen, type Say, sayIn } from './known.js';
import { referenceProblems } from './reference-problems.js';

/**
 * Do the names of a comparison lead anywhere? Units and items are specimens of the lots beside it, characteristics are given
 * by their methods in their units, features are declared, people are known. `file` is what the problems name.
 */
export function comparisonFolderProblems(
  document: ComparisonDocument,
  lots: readonly LotOf[],
  file: string,
): Problem[] {
  const say = sayIn(file);
  const known = knownIn(lots);
  return [
    ...lotProblems(document, known),
    ...comparedProblems(document, known, say),
    ...referenceProblems(document, known, say),
    ...document.comparison.characteristics.flatMap((one, index) => characteristicProblems(one, index, known, say)),
    ...observationProblems(document, known, say),
    ...itemRecordProblems(document, known, say),
    ...personProblems(document, known, say),
    ...revisionProblems(document, say),
  ];
}

/** Lots of another product, and names that stand in two lots. */
function lotProblems({ comparison }: ComparisonDocument, { lots }: Known): Problem[] {
  const lotIn = new Map<string, string>();
  const specimenIn = new Map<string, string>();
  return lots.flatMap(({ folder, bundle }) => {
    const file = `lots/${folder}/lot.json`;
    const told = (pointer: string, sentence: string, found: string): Problem => ({
      code: 'state.conflict',
      file,
      pointer,
      detail: `${file}, ${pointer}: ${sentence}`,
      found: shown(found),
    });
    const { lot } = bundle.lot;
    const other = lotIn.get(lot);
    lotIn.set(lot, folder);
    const twice = bundle.specimens.flatMap(({ specimen }, index) => {
      const before = specimenIn.get(specimen);
      specimenIn.set(specimen, lot);
      return before === undefined
        ? []
        : [
            told(
              `/specimens/${index}/specimen`,
              `specimen ${specimen} is one of lot ${before} already. A wheel is of one lot: give each its own key.`,
              specimen,
            ),
          ];
    });
    return [
      ...(bundle.lot.product === comparison.product
        ? []
        : [
            told(
              '/lot/product',
              `lot ${lot} is of product ${shown(bundle.lot.product)}, and the comparison is of ${comparison.product}. Take the lot out, or correct the product.`,
              bundle.lot.product,
            ),
          ]),
      ...(other === undefined
        ? []
        : [told('/lot/lot', `lot ${lot} lies in folder ${shown(other)} already. Keep one of them.`, lot)]),
      ...twice,
    ];
  });
}

function comparedProblems({ comparison, reference }: ComparisonDocument, known: Known, say: Say): Problem[] {
  const { compared } = comparison;
  if (compared.what === 'items with a reference') {
    const units = new Set(reference?.units.map(({ specimen }) => specimen));
    return compared.items.flatMap((item, index) => {
      const at = `/comparison/compared/items/${index}`;
      if (compared.items.indexOf(item) < index)
        return [say('state.conflict', at, `item ${item} stands twice. Name each item once.`, item)];
      if (units.has(item))
        return [
          say('state.conflict', at, `item ${item} is a unit of the reference. Nothing is compared with itself.`, item),
        ];
      return known.specimens.has(item) ? [] : [noSpecimen(say, at, item)];
    });
  }
  const lots = new Set(known.lots.map(({ bundle }) => bundle.lot.lot));
  return (['first', 'second'] as const).flatMap((group) =>
    compared[group].lots.flatMap((lot, index) => {
      const at = `/comparison/compared/${group}/lots/${index}`;
      if (!lots.has(lot))
        return [say('meta.unknown', at, `there is no lot ${lot} in lots/. Put its folder there.`, lot)];
      return group === 'second' && compared.first.lots.includes(lot)
        ? [say('state.conflict', at, `lot ${lot} is of the first group too. A lot is of one of them.`, lot)]
        : [];
    }),
  );
}

/** Custody and what is set aside are of specimens that are there. */
function itemRecordProblems({ custody, setAside = [] }: ComparisonDocument, known: Known, say: Say): Problem[] {
  const at = (list: string, entries: readonly { specimen: string }[]) =>
    entries.flatMap(({ specimen }, index) =>
      known.specimens.has(specimen) ? [] : [noSpecimen(say, `/${list}/${index}/specimen`, specimen)],
    );
  return [...at('custody', custody), ...at('setAside', setAside)];
}

function personProblems(document: ComparisonDocument, { people }: Known, say: Say): Problem[] {
  const { comparison, reference, alternative, custody, consents = [], observations, setAside = [], locked } = document;
  const { blind } = comparison;
  const ofReference = (name: string, one: Reference | undefined): [string, string | undefined][] => [
    [`/${name}/chosenBy`, one?.chosenBy],
    [`/${name}/variants/checkedBy`, one?.variants?.checkedBy],
  ];
  const named: [pointer: string, person: string | undefined][] = [
    ['/comparison/declaredBy', comparison.declaredBy],
    ['/comparison/blind/listKeptBy', blind?.listKeptBy],
    ...(blind?.blinded ?? []).map((person, index): [string, string] => [`/comparison/blind/blinded/${index}`, person]),
    ...ofReference('reference', reference),
    ...ofReference('alternative', alternative),
    ...custody.map(({ recordedBy }, index): [string, string] => [`/custody/${index}/recordedBy`, recordedBy]),
    ...consents.map(({ recordedBy }, index): [string, string] => [`/consents/${index}/recordedBy`, recordedBy]),
    ...observations.map(({ by }, index): [string, string] => [`/observations/${index}/by`, by]),
    ...setAside.map(({ by }, index): [string, string] => [`/setAside/${index}/by`, by]),
    ['/locked/by', locked?.by],
  ];
  return named.flatMap(([pointer, person]) =>
    person === undefined || people.has(person)
      ? []
      : [
          say(
            'meta.unknown',
            pointer,
            `there is no person ${person} in lab.json of any lot. Add the person there, or correct the key.`,
            person,
          ),
        ],
  );
}

/** Earlier revisions are of this comparison, oldest first, and come before it. */
function revisionProblems({ comparison, earlier = [] }: ComparisonDocument, say: Say): Problem[] {
  return [...earlier, comparison].flatMap((one, index, all) => {
    const at = index < earlier.length ? `/earlier/${index}` : '/comparison';
    if (one.comparison !== comparison.comparison)
      return [
        say(
          'state.conflict',
          `${at}/comparison`,
          `this is comparison ${one.comparison}, and the folder is of ${comparison.comparison}.`,
          one.comparison,
        ),
      ];
    const before = all[index - 1]?.revision ?? 0;
    return one.revision === before + 1
      ? []
      : [
          {
            ...say(
              'state.conflict',
              `${at}/revision`,
              `this is revision ${one.revision}, where ${before + 1} is expected: every revision is kept and shown, from the first, oldest first.`,
              String(one.revision),
            ),
            expected: String(before + 1),
          },
        ];
  });
}
