import type {
  Comparison,
  ComparisonTool,
  DeclaredCharacteristic,
  Distribution,
  Feature,
  LotsTaken,
  ReferenceUnit,
  Side,
} from '@breakbook/lab';
import type { NewComparison } from '../../../client/answers.js';

/** A characteristic as it is filled in: what one tool needs stays as it is where another is tried. */
export interface CharacteristicDraft {
  name: string;
  title: string;
  from: 'runs' | 'examination';
  /** "method rev". */
  method: string;
  characteristic: string;
  feature: string;
  unit: string;
  tool: ComparisonTool['kind'];
  distribution: Distribution;
  of: 'each' | 'mean';
  side: Side;
  lots: LotsTaken;
  test: 'Welch' | 'Mann-Whitney' | 'permutation';
  sharedOut: 'specimens' | 'lot means';
  marginLow: string;
  marginHigh: string;
  better: 'higher' | 'lower';
  margin: string;
  matters: string;
  betweenRigs: boolean;
  betweenRigsU: string;
  betweenRigsFrom: string;
}

export interface GroupDraft {
  title: string;
  lots: readonly string[];
}

/** A comparison as it is filled in; numbers are text until they are sent. */
export interface Declaration {
  comparison: string;
  title: string;
  product: string;
  question: string;
  what: 'items with a reference' | 'two groups';
  /** "reference rev". */
  reference: string;
  items: readonly ReferenceUnit[];
  first: GroupDraft;
  second: GroupDraft;
  characteristics: readonly CharacteristicDraft[];
  features: readonly Feature[];
  /** In percent. */
  confidence: string;
  correction: Comparison['correction'];
  /** In percent. */
  power: string;
  /** One a line. */
  notExamined: string;
  isBlind: boolean;
  blinded: readonly string[];
  listKeptBy: string;
  mayGoToCourt: boolean;
  hasAlternative: boolean;
  alternative: string;
  /** "reference rev". */
  alternativeReference: string;
  seed: string;
}

export const FRESH_CHARACTERISTIC: CharacteristicDraft = {
  name: '',
  title: '',
  from: 'runs',
  method: '',
  characteristic: '',
  feature: '',
  unit: '',
  tool: 'prediction',
  distribution: 'normal',
  of: 'each',
  side: 'below',
  lots: 'vary',
  test: 'permutation',
  sharedOut: 'specimens',
  marginLow: '',
  marginHigh: '',
  better: 'higher',
  margin: '',
  matters: '',
  betweenRigs: false,
  betweenRigsU: '',
  betweenRigsFrom: '',
};

export const FRESH_FEATURE: Feature = { feature: '', title: '', kind: 'marking', howRead: '', changesItem: false };

/** A form with nothing in it but what is known already. */
export function begunDeclaration(known: { product: string; reference: string; seed: number }): Declaration {
  return {
    comparison: '',
    title: '',
    product: known.product,
    question: '',
    what: 'items with a reference',
    reference: known.reference,
    items: [],
    first: { title: '', lots: [] },
    second: { title: '', lots: [] },
    characteristics: [FRESH_CHARACTERISTIC],
    features: [],
    confidence: '95',
    correction: 'Holm',
    power: '80',
    notExamined: '',
    isBlind: false,
    blinded: [],
    listKeptBy: '',
    mayGoToCourt: false,
    hasAlternative: false,
    alternative: '',
    alternativeReference: '',
    seed: `${known.seed}`,
  };
}

/** What was declared, to be declared anew. */
export function declarationOf(content: Comparison): Declaration {
  const { compared, blind, alternative } = content;
  const ref = ({ reference, revision }: { reference: string; revision: number }) => `${reference} ${revision}`;
  return {
    ...begunDeclaration({ product: content.product, reference: '', seed: content.seed }),
    comparison: content.comparison,
    title: content.title,
    question: content.question,
    what: compared.what,
    ...(compared.what === 'two groups'
      ? { first: compared.first, second: compared.second }
      : {
          reference: ref(compared.reference),
          items: compared.items.map((specimen) => ({ specimen, lot: '' })),
        }),
    characteristics: content.characteristics.map(draftOf),
    features: content.features,
    confidence: percentOf(content.confidence),
    correction: content.correction,
    power: percentOf(content.power),
    notExamined: content.notExamined.join('\n'),
    ...(blind ? { isBlind: true, ...blind } : {}),
    mayGoToCourt: content.mayGoToCourt,
    ...(alternative
      ? { hasAlternative: true, alternative: alternative.statement, alternativeReference: ref(alternative.reference) }
      : {}),
  };
}

function draftOf(declared: DeclaredCharacteristic): CharacteristicDraft {
  const { name, title, source, unit = '', tool, differenceThatMatters, betweenRigs } = declared;
  return {
    ...FRESH_CHARACTERISTIC,
    name,
    title,
    from: source.from,
    ...(source.from === 'runs'
      ? { method: `${source.method} ${source.methodRevision}`, characteristic: source.characteristic }
      : { feature: source.feature }),
    unit,
    tool: tool.kind,
    ...('distribution' in tool ? { distribution: tool.distribution, of: tool.of, lots: tool.lots } : {}),
    ...('side' in tool ? { side: tool.side } : {}),
    ...('test' in tool ? { test: tool.test } : {}),
    ...('unit' in tool ? { sharedOut: tool.unit } : {}),
    ...(tool.kind === 'equivalence' ? { marginLow: `${tool.margin[0]}`, marginHigh: `${tool.margin[1]}` } : {}),
    ...(tool.kind === 'non-inferiority' ? { better: tool.better, margin: `${tool.margin}` } : {}),
    matters: differenceThatMatters === undefined ? '' : `${differenceThatMatters}`,
    ...(betweenRigs ? { betweenRigs: true, betweenRigsU: `${betweenRigs.u}`, betweenRigsFrom: betweenRigs.from } : {}),
  };
}

/** What is sent. What is no number is sent as it was written, so that the service says what it expected there. */
export function contentOf(draft: Declaration, revision: number): NewComparison {
  const { isBlind, blinded, listKeptBy, hasAlternative } = draft;
  return {
    comparison: draft.comparison.trim(),
    revision,
    title: draft.title.trim(),
    product: draft.product,
    question: draft.question.trim(),
    compared:
      draft.what === 'two groups'
        ? { what: draft.what, first: groupOf(draft.first), second: groupOf(draft.second) }
        : {
            what: draft.what,
            reference: refOf(draft.reference),
            items: draft.items.map(({ specimen }) => specimen),
          },
    characteristics: draft.characteristics.map(declaredOf),
    features: draft.features.map((one) => ({
      ...one,
      feature: one.feature.trim(),
      title: one.title.trim(),
      howRead: one.howRead.trim(),
    })),
    confidence: shareOf(draft.confidence),
    correction: draft.correction,
    power: shareOf(draft.power),
    notExamined: draft.notExamined.split('\n').flatMap((line) => line.trim() || []),
    ...(isBlind ? { blind: { blinded: [...blinded], listKeptBy } } : {}),
    mayGoToCourt: draft.mayGoToCourt,
    ...(hasAlternative
      ? { alternative: { statement: draft.alternative.trim(), reference: refOf(draft.alternativeReference) } }
      : {}),
    seed: numberIn(draft.seed),
  };
}

function groupOf({ title, lots }: GroupDraft) {
  return { title: title.trim(), lots: [...lots] };
}

function declaredOf(draft: CharacteristicDraft): NewComparison['characteristics'][number] {
  const { name, title, unit, tool, matters, betweenRigs } = draft;
  return {
    name: name.trim(),
    title: title.trim(),
    source:
      draft.from === 'runs'
        ? { from: 'runs', ...methodIn(draft.method), characteristic: draft.characteristic }
        : { from: 'examination', feature: draft.feature },
    ...(tool === 'failure modes' ? {} : { unit: unit.trim() }),
    tool: toolOf(draft),
    ...(matters.trim() === '' ? {} : { differenceThatMatters: numberIn(matters) }),
    ...(betweenRigs ? { betweenRigs: { u: numberIn(draft.betweenRigsU), from: draft.betweenRigsFrom.trim() } } : {}),
  };
}

function toolOf(draft: CharacteristicDraft): ComparisonTool {
  const { tool: kind, distribution, of, side, lots, test, sharedOut: unit, better } = draft;
  switch (kind) {
    case 'prediction':
      return { kind, distribution, of, side, lots };
    case 'two groups':
      return { kind, test, side, unit };
    case 'failure modes':
      return { kind };
    case 'equivalence':
      return { kind, margin: [numberIn(draft.marginLow), numberIn(draft.marginHigh)], unit };
    case 'non-inferiority':
      return { kind, better, margin: numberIn(draft.margin), unit };
  }
}

function refOf(text: string): { reference: string; revision: number } {
  const { name, revision } = apart(text);
  return { reference: name, revision };
}

function methodIn(text: string): { method: string; methodRevision: number } {
  const { name, revision } = apart(text);
  return { method: name, methodRevision: revision };
}

/** "BURST 3" as a name and a number; names hold no spaces. */
function apart(text: string): { name: string; revision: number } {
  const at = text.lastIndexOf(' ');
  return at < 0 ? { name: text, revision: 1 } : { name: text.slice(0, at), revision: Number(text.slice(at + 1)) };
}

function numberIn(text: string): number {
  const value = Number(text.trim());
  return text.trim() === '' || Number.isNaN(value) ? (text as unknown as number) : value;
}

/** Percent as a share; the digits of 0.95 are those of 95. */
function shareOf(percent: string): number {
  const value = numberIn(percent);
  return typeof value === 'number' ? Number((value / 100).toPrecision(12)) : value;
}

function percentOf(share: number): string {
  return `${Number((share * 100).toPrecision(12))}`;
}
