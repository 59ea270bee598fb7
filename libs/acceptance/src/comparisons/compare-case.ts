import {
  type CharacteristicComparison,
  type Comparison,
  type ComparisonCase,
  type ComparisonResult,
  type DeclaredCharacteristic,
  type ItemFinding,
  itemsOf,
  knownOf,
  type NotEvaluated,
  notEvaluated,
  SOFTWARE,
  type ToolOf,
} from '@breakbook/lab';
import { counted } from '../words/index.js';
import { conclusions } from './conclusions.js';
import { correctionStep, levelsFor } from './correction.js';
import { custodyGaps } from './custody-gaps.js';
import { compareFeature, featuresSeen } from './features.js';
import { type Gathered, gatheredValues, type Member } from './gathered-values.js';
import { likelihoodRatioOf } from './likelihood-ratio.js';
import { notesOf } from './notes.js';
import { failureModesTool } from './tools/failure-modes.js';
import { marginTool } from './tools/margins.js';
import { predictionTool } from './tools/prediction.js';
import { type Tested, type ToolQuestion, undecided } from './tools/tested.js';
import { twoGroupsTool } from './tools/two-groups.js';

/** Both sides of a comparison: whose values stand for what is known, and whose are compared with it. */
interface Sides {
  reference: Member[];
  items: Member[];
  names: ToolQuestion['names'];
}

/**
 * How well do the items agree with the reference, or the second group with the first? Every declared characteristic by its
 * declared tool, at the level the correction leaves it; every feature looked at, letter by letter; and what may be said of
 * each item and of all, on five levels. Nothing that was not declared is compared, and nothing declared is left out.
 */
export function compareCase(given: ComparisonCase): ComparisonResult {
  const { comparison } = given;
  const sides = sidesOf(given);
  const asked = comparison.characteristics.map((declared) => {
    const reference = gatheredValues(given, declared, sides.reference);
    const items = gatheredValues(given, declared, sides.items);
    const question: ToolQuestion = {
      declared,
      tool: declared.tool,
      comparison,
      reference: reference.values,
      items: items.values,
      names: sides.names,
    };
    return { question, reference, items, tested: testedBy(question, sides) };
  });
  const levels = levelsFor(
    asked.map(({ tested }) => tested.p),
    comparison,
  );
  const characteristics = asked.map((one, index) => compared(given, sides, one, levels[index] as number));
  const { compared: features } = featuresSeen(given);
  const seen = features.map((feature) => compareFeature(given, feature, sides.reference, sides.items));
  return {
    comparison: { comparison: comparison.comparison, revision: comparison.revision },
    ...(given.reference
      ? { reference: { reference: given.reference.reference, revision: given.reference.revision } }
      : {}),
    ...conclusions(given, sides.items, characteristics, seen),
    features: seen,
    characteristics,
    gaps: [...custodyGaps(given.custody), ...withoutCustody(given, sides)],
    notExamined: comparison.notExamined,
    notes: notesOf(given, sides),
    earlierRevisions: earlierRevisions(given),
    software: SOFTWARE,
  };
}

function sidesOf(given: ComparisonCase): Sides {
  const { compared } = given.comparison;
  const asMember = (specimen: string): Member => {
    const named = (one: { specimen: string }) => one.specimen === specimen;
    // A unit of the reference is of the lot under which it was frozen.
    const { lot } = given.reference?.units.find(named) ?? given.specimens.find(named) ?? { lot: 'not recorded' };
    return { specimen, lot };
  };
  return {
    reference: knownOf(given).map(asMember),
    items: itemsOf(given).map(asMember),
    names:
      compared.what === 'two groups'
        ? { reference: compared.first.title, items: compared.second.title }
        : {
            reference: 'the reference',
            items: compared.items.length === 1 ? `item ${compared.items[0]}` : 'the items',
          },
  };
}

function testedBy(question: ToolQuestion, { reference }: Sides): Tested {
  const none = whyNoValues(question, reference);
  if (none) return { p: none, at: () => undecided(question, none) };
  const { tool } = question;
  switch (tool.kind) {
    case 'prediction':
      return predictionTool({ ...question, tool });
    case 'two groups':
      return twoGroupsTool({ ...question, tool });
    case 'failure modes':
      return failureModesTool({ ...question, tool });
    case 'equivalence':
    case 'non-inferiority':
      return marginTool({ ...question, tool });
  }
}

function whyNoValues({ reference, items, names }: ToolQuestion, members: readonly Member[]): NotEvaluated | undefined {
  if (reference.length === 0)
    return notEvaluated(
      members.length === 0
        ? 'there is no reference'
        : `none of ${counted(members.length, 'unit')} of ${names.reference} gave a value`,
      `units of ${names.reference} are tested under the declared method revision`,
    );
  if (items.length === 0)
    return notEvaluated(
      `no value of ${names.items} is there`,
      'a valid run under the declared method revision gives one',
    );
  return undefined;
}

function compared(
  given: ComparisonCase,
  sides: Sides,
  {
    question,
    reference,
    items,
    tested,
  }: { question: ToolQuestion; reference: Gathered; items: Gathered; tested: Tested },
  level: number,
): CharacteristicComparison {
  const { declared, tool } = question;
  const { each, finding, sentence, steps, ...numbers } = tested.at(level);
  const all = sides.items.flatMap(({ specimen }) => {
    const found = each.find((one) => one.specimen === specimen);
    if (found) return [found];
    return each.length > 0 && tookAnotherTest(given, declared, specimen)
      ? []
      : [without(given, declared, items, specimen)];
  });
  const setAside = all.length > 0 && all.every((one) => one.level === 'E');
  const ratio = given.comparison.alternative ? ratioOf(given, question) : undefined;
  return {
    name: declared.name,
    title: declared.title,
    ...(declared.unit === undefined ? {} : { unit: declared.unit }),
    source: declared.source,
    tool,
    reference: reference.values,
    items: items.values,
    leftOut: [...reference.leftOut, ...items.leftOut],
    lots: new Set(reference.values.map(({ lot }) => lot)).size,
    p: tested.p,
    ...(tested.pError === undefined ? {} : { pError: tested.pError }),
    level,
    ...numbers,
    ...(ratio === undefined ? {} : { likelihoodRatio: ratio }),
    finding: setAside ? 'E' : finding,
    sentence: setAside ? `${declared.title}: no comparison; every item is set aside.` : sentence,
    each: given.comparison.compared.what === 'two groups' ? [] : all,
    steps: [correctionStep(tested.p, level, given.comparison), ...steps],
  };
}

/**
 * Was this item given to another declared test? A test ends an item, so that of several items each can take one: it is then
 * not examined in this characteristic, which others of them answer for.
 */
function tookAnotherTest(
  { comparison, runs, setAside = [] }: ComparisonCase,
  { source }: DeclaredCharacteristic,
  specimen: string,
): boolean {
  if (source.from !== 'runs' || setAside.some((one) => one.specimen === specimen)) return false;
  const methods = comparison.characteristics.flatMap((one) => (one.source.from === 'runs' ? [one.source.method] : []));
  const taken = runs.filter((run) => run.specimen === specimen).map(({ method }) => method);
  return !taken.includes(source.method) && taken.some((method) => methods.includes(method));
}

/** An item that gave no value for this characteristic. */
function without(
  given: ComparisonCase,
  { title }: DeclaredCharacteristic,
  { leftOut }: Gathered,
  specimen: string,
): ItemFinding {
  const away = (given.setAside ?? []).find((one) => one.specimen === specimen);
  if (away) return { specimen, level: 'E', sentence: `Item ${specimen} is set aside: ${away.because}` };
  const reasons = leftOut
    .filter((one) => one.specimen === specimen)
    .map(({ run, because }) => (run === undefined ? because : `run ${run}: ${because}`));
  return {
    specimen,
    level: 'C',
    sentence: `${title} of item ${specimen} is inconclusive: there is no value (${reasons.join('; ')}).`,
  };
}

function ratioOf(given: ComparisonCase, question: ToolQuestion): CharacteristicComparison['likelihoodRatio'] {
  const { alternative } = given.comparison as Comparison & Required<Pick<Comparison, 'alternative'>>;
  const { tool } = question;
  if (tool.kind !== 'prediction')
    return notEvaluated(
      `a ${tool.kind} tool gives no density of values`,
      'the tool is a prediction under a normal or lognormal distribution',
    );
  const units = (given.alternative?.units ?? []).map(({ specimen, lot }) => ({ specimen, lot }));
  const { values } = gatheredValues(given, question.declared, units);
  if (values.length === 0 || question.items.length === 0 || question.reference.length === 0)
    return notEvaluated(
      'there are no values of both sides and of the alternative',
      'units of the alternative are tested like the items',
    );
  return likelihoodRatioOf(
    { ...question, tool: tool as ToolOf<'prediction'> },
    { values, statement: alternative.statement },
  );
}

/** Items of which no custody is recorded at all. */
function withoutCustody({ comparison, custody }: ComparisonCase, { items }: Sides): ComparisonResult['gaps'] {
  if (comparison.compared.what === 'two groups') return [];
  return items
    .filter(({ specimen }) => !custody.some((event) => event.specimen === specimen))
    .map(({ specimen }) => ({ specimen, sentence: `Item ${specimen}: no custody is recorded.` }));
}

/** Each revision before this one, with the reason that the one after it gives. */
function earlierRevisions({ comparison, earlier = [] }: ComparisonCase): ComparisonResult['earlierRevisions'] {
  const all = [...earlier, comparison].toSorted((a, b) => a.revision - b.revision);
  return all.slice(0, -1).map(({ revision, declaredAt }, index) => ({
    revision,
    declaredAt,
    reason: all[index + 1]?.reason ?? 'no reason is recorded',
  }));
}
