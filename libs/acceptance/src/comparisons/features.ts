import type { ComparisonCase, ComparisonLevel, Feature, FeatureComparison, Observation } from '@breakbook/lab';
import { counted } from '../words/index.js';
import type { Member } from './gathered-values.js';
import { togetherOf } from './tools/tested.js';

/** Features that are words, not quantities: those with numbers count only through the characteristics declared of them. */
export function featuresSeen({ comparison, observations }: ComparisonCase): {
  compared: Feature[];
  onlyMeasured: Feature[];
} {
  const measured = new Set(
    comparison.characteristics.flatMap(({ source }) => (source.from === 'examination' ? [source.feature] : [])),
  );
  const open = comparison.features.filter(({ feature }) => !measured.has(feature));
  const isMeasured = ({ feature }: Feature) => {
    const of = observations.filter((one) => one.feature === feature);
    return of.length > 0 && of.every(({ seen }) => seen === undefined);
  };
  return { compared: open.filter((one) => !isMeasured(one)), onlyMeasured: open.filter(isMeasured) };
}

/**
 * What was seen of one feature on the reference and on each item, letter by letter. An item whose like was neither seen on
 * a reference unit nor is recorded as a build variant is "not consistent"; where nobody looked through the build records, or
 * no reference unit was looked at, that cannot be said.
 */
export function compareFeature(
  given: ComparisonCase,
  feature: Feature,
  reference: readonly Member[],
  items: readonly Member[],
): FeatureComparison {
  const seenOn = (specimen: string) =>
    given.observations.filter(
      (one) => one.specimen === specimen && one.feature === feature.feature && one.seen !== undefined,
    );
  const units = reference.map(({ specimen }) => [...new Set(seenOn(specimen).map(({ seen }) => seen as string))]);
  const looked = units.filter((seen) => seen.length > 0).length;
  const kinds = [...new Set(units.flat())].map((seen) => ({
    seen,
    units: units.filter((one) => one.includes(seen)).length,
  }));
  kinds.sort((a, b) => b.units - a.units || (a.seen < b.seen ? -1 : 1));
  const checked = given.reference?.variants;
  const variants = checked?.features[feature.feature] ?? [];

  const { compared } = given.comparison;
  const group = compared.what === 'two groups' ? compared.second.title : undefined;
  const unit = compared.what === 'two groups' ? 'specimen' : 'reference unit';
  const ofGroup = compared.what === 'two groups' ? ` of ${compared.first.title}` : '';
  const others = `${counted(looked, unit)}${ofGroup}`;
  const allOthers = looked === 1 ? `the only ${unit}${ofGroup}` : `all ${others}`;
  // Of a group those speak that were looked at; each item by itself is asked for.
  const asked = group === undefined ? items : items.filter(({ specimen }) => seenOn(specimen).length > 0);
  const found = asked.map(({ specimen }): SeenOnItem => {
    const away = (given.setAside ?? []).find((one) => one.specimen === specimen);
    if (away) return { specimen, level: 'E', rest: ` is not compared; it is set aside: ${away.because}` };
    const seen = seenOn(specimen);
    const [first] = seen;
    if (first?.seen === undefined) return { specimen, level: 'C', rest: ' was not looked at.' };
    const words = [...new Set(seen.map((one) => one.seen as string))];
    const said = (level: ComparisonLevel, rest: string) => ({
      specimen,
      seen: first.seen as string,
      level,
      rest: `, ${quoted(words)}${foundBy(seen)}, ${rest}`,
    });
    if (words.length > 1) return said('C', 'was read in more than one way, and is inconclusive.');
    const likeIt = kinds.find((one) => one.seen === first.seen)?.units ?? 0;
    if (likeIt > 0) return said('D', `was seen alike on ${likeIt} of ${others} looked at.`);
    if (variants.includes(first.seen)) return said('D', 'is a build variant recorded for the period.');
    if (looked === 0) return said('C', 'is inconclusive: no reference unit was looked at for it.');
    const differs = `differs from ${allOthers} looked at (${quoted(kinds.map((one) => one.seen))})`;
    return checked
      ? said('A', `${differs}; no build variant recorded for the period has this (${checked.list}).`)
      : said(
          'C',
          `${differs}, and is inconclusive: nobody looked through the build records for variants of the period.`,
        );
  });
  const finding = found.length === 0 ? 'C' : togetherOf(found.map(({ level }) => level));
  const of = (specimens: readonly string[]) =>
    group === undefined
      ? `${specimens.length === 1 ? 'item' : 'items'} ${specimens.join(', ')}`
      : specimens.length === 1
        ? `specimen ${specimens[0]}`
        : `${counted(specimens.length, 'specimen')} of ${group}`;
  const sentenceOf = (rest: string, specimens: readonly string[]) => `${feature.title} of ${of(specimens)}${rest}`;
  const strongest = found.filter(({ level }) => level === finding);
  return {
    feature,
    reference: kinds,
    variants,
    items: found.map(({ rest, ...one }) => ({ ...one, sentence: sentenceOf(rest, [one.specimen]) })),
    finding,
    sentence:
      found.length === 0
        ? `${feature.title} was looked at on no specimen of ${group}.`
        : [...new Set(strongest.map(({ rest }) => rest))]
            .map((rest) =>
              sentenceOf(
                rest,
                strongest.filter((one) => one.rest === rest).map(({ specimen }) => specimen),
              ),
            )
            .join(' '),
  };
}

/** What was found of one item, and how the sentence on it goes on after naming it. */
type SeenOnItem = Omit<FeatureComparison['items'][number], 'sentence'> & { rest: string };

function quoted(words: readonly string[]): string {
  return words.map((word) => `"${word}"`).join(', ');
}

/** Findings from outside the lab are marked so wherever they are told. */
function foundBy(seen: readonly Observation[]): string {
  const outside = seen.find(({ givenBy }) => givenBy !== undefined);
  if (!outside) return '';
  return outside.givenBy === 'customer'
    ? ' as the customer found'
    : ` as ${outside.provider ?? 'an outside provider'} found`;
}
