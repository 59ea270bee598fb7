import { z } from 'zod';
import { ChannelName } from '../methods.js';
import { Distribution, Share } from '../plans.js';
import { UnitCode } from '../quantity.js';
import { Instant, Key, Line, Paragraph, Revision } from '../text.js';
import { Feature } from './observations.js';
import { ReferenceRef } from './references.js';

/** On which side a difference counts; for each side that is left out, none is ever found. */
export const Side = z.enum(['below', 'above', 'either']);
export type Side = z.infer<typeof Side>;

/**
 * Whether lots of one product may differ. `vary`: an item may come from a lot of its own, whose mean is drawn among those of
 * lots. `alike`: units of all lots are taken for one population, tested and printed, and refused where lots differ.
 */
export const LotsTaken = z.enum(['vary', 'alike']);
export type LotsTaken = z.infer<typeof LotsTaken>;

/** How a characteristic is compared. */
export const ComparisonTool = z.discriminatedUnion('kind', [
  /** Each item, or the mean of the items, against bounds that future units of the reference's kind keep within. */
  z.strictObject({
    kind: z.literal('prediction'),
    distribution: Distribution,
    of: z.enum(['each', 'mean']),
    side: Side,
    lots: LotsTaken,
  }),
  /** Does one group tend to be larger? `unit`: what is shared out, specimens, or the mean of each lot. */
  z.strictObject({
    kind: z.literal('two groups'),
    test: z.enum(['Welch', 'Mann-Whitney', 'permutation']),
    side: Side,
    unit: z.enum(['specimens', 'lot means']),
  }),
  /** Do the groups break in the same modes, in the same shares? */
  z.strictObject({ kind: z.literal('failure modes') }),
  /** Items and reference differ by less than the margin either way, shown by two one-sided tests. */
  z
    .strictObject({
      kind: z.literal('equivalence'),
      margin: z.tuple([z.number(), z.number()]),
      unit: z.enum(['specimens', 'lot means']),
    })
    .refine(({ margin: [low, high] }) => low < 0 && high > 0, {
      error: 'must run from below 0 to above 0: by how much the difference may lie on either side',
      path: ['margin'],
    }),
  /** Items are worse than the reference by less than the margin. */
  z.strictObject({
    kind: z.literal('non-inferiority'),
    better: z.enum(['higher', 'lower']),
    margin: z.number().positive(),
    unit: z.enum(['specimens', 'lot means']),
  }),
]);
export type ComparisonTool = z.infer<typeof ComparisonTool>;
export type ToolOf<K extends ComparisonTool['kind']> = Extract<ComparisonTool, { kind: K }>;

/** Where the values come from: valid runs under a method revision, or what the examination wrote down of a feature. */
export const ValueSource = z.discriminatedUnion('from', [
  z.strictObject({ from: z.literal('runs'), method: Key, methodRevision: Revision, characteristic: ChannelName }),
  z.strictObject({ from: z.literal('examination'), feature: Key }),
]);
export type ValueSource = z.infer<typeof ValueSource>;

export const DeclaredCharacteristic = z.strictObject({
  name: Key,
  title: Line,
  source: ValueSource,
  /** In which values are compared; left out for failure modes. */
  unit: UnitCode.optional(),
  tool: ComparisonTool,
  /** A difference, in `unit`, that would matter: where the reference could not have shown it, "consistent" is not said. */
  differenceThatMatters: z.number().positive().optional(),
  /** Standard uncertainty, in `unit`, of the difference between rigs or labs, where items and reference were not tested on one. */
  betweenRigs: z.strictObject({ u: z.number().positive(), from: Paragraph }).optional(),
});
export type DeclaredCharacteristic = z.infer<typeof DeclaredCharacteristic>;

/** A group of lots under one name: a supplier, or what was made before a change. */
export const ComparedGroup = z.strictObject({ title: Line, lots: z.array(Key).min(1).max(100) });
export type ComparedGroup = z.infer<typeof ComparedGroup>;

/**
 * What is compared with what, by which characteristics and how surely, written before testing. Frozen when it is declared:
 * what changes later is a new revision with its reason, and both show.
 */
export const Comparison = z
  .strictObject({
    comparison: Key,
    revision: Revision,
    title: Line,
    product: Key,
    /** As asked: "does item X agree with model M, made in period T, in characteristics C1 to Ck?" */
    question: Paragraph,
    compared: z.discriminatedUnion('what', [
      z.strictObject({
        what: z.literal('items with a reference'),
        reference: ReferenceRef,
        items: z.array(Key).min(1).max(200),
      }),
      /** Differences are of the second from the first. */
      z.strictObject({ what: z.literal('two groups'), first: ComparedGroup, second: ComparedGroup }),
    ]),
    characteristics: z.array(DeclaredCharacteristic).min(1).max(50),
    features: z.array(Feature).max(100),
    /** Of all declared characteristics together. */
    confidence: Share,
    correction: z.enum(['Holm', 'Bonferroni', 'none']),
    /** With which chance the smallest difference told would have been found. */
    power: Share,
    /** What could have been examined and was not, besides what is declared. Printed with every conclusion. */
    notExamined: z.array(Line).min(1).max(100),
    /** Who does not know, before conclusions are locked, which item is which; and who keeps the list of codes. */
    blind: z.strictObject({ blinded: z.array(Key).min(1), listKeptBy: Key }).optional(),
    /** Remnants may go to court: consent or notice is recorded before a step that changes an item. */
    mayGoToCourt: z.boolean(),
    /**
     * Another making, by units known to be of it: only with data for both sides is a likelihood ratio told. The statement
     * names it, such as "made in the mould of 2024".
     */
    alternative: z.strictObject({ statement: Paragraph, reference: ReferenceRef }).optional(),
    /** Of simulated levels. */
    seed: z.number().int().min(1).max(2147483646),
    declaredBy: Key,
    declaredAt: Instant,
    /** Why this revision took the place of the one before; whether results had been seen by then is told by the ledger. */
    reason: Paragraph.optional(),
  })
  .superRefine((comparison, context) => {
    const { characteristics, features, correction, blind, revision, reason } = comparison;
    const twice = (names: string[]) => names.findIndex((name, index) => names.indexOf(name) !== index);
    const say = (path: (string | number)[], message: string) => context.addIssue({ code: 'custom', path, message });
    const again = twice(characteristics.map(({ name }) => name));
    if (again >= 0) say(['characteristics', again, 'name'], 'stands twice; each characteristic has a name of its own');
    const againSeen = twice(features.map(({ feature }) => feature));
    if (againSeen >= 0) say(['features', againSeen, 'feature'], 'stands twice; each feature has a name of its own');
    if (correction === 'none' && characteristics.length > 1)
      say(
        ['correction'],
        `"none" with ${characteristics.length} characteristics would call out an item that agrees in all of them more often than ${percent(1 - comparison.confidence)} of the time; write "Holm"`,
      );
    if (revision > 1 && reason === undefined)
      say(['reason'], 'a later revision says why it took the place of the one before');
    if (blind?.blinded.includes(blind.listKeptBy))
      say(['blind', 'listKeptBy'], 'keeps the list of codes and cannot be blinded by it');
    for (const [index, one] of characteristics.entries()) {
      const at = ['characteristics', index];
      const { source, tool, unit } = one;
      if (source.from === 'examination' && !features.some(({ feature }) => feature === source.feature))
        say([...at, 'source', 'feature'], `names feature ${source.feature}, which is not declared`);
      if (tool.kind === 'failure modes' ? source.from !== 'runs' : unit === undefined)
        say(
          [...at, tool.kind === 'failure modes' ? 'source' : 'unit'],
          tool.kind === 'failure modes' ? 'modes are found in runs' : 'a unit is needed; nothing is assumed',
        );
      if (comparison.compared.what === 'two groups' && tool.kind === 'prediction')
        say([...at, 'tool', 'kind'], 'prediction is for items against a reference; two groups are compared as groups');
    }
  });
export type Comparison = z.infer<typeof Comparison>;

function percent(share: number): string {
  return `${Number((100 * share).toPrecision(6))} %`;
}

export const ComparisonRef = z.strictObject({ comparison: Key, revision: Revision });
export type ComparisonRef = z.infer<typeof ComparisonRef>;
