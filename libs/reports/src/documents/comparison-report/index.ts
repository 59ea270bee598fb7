import { itemsOf } from '@breakbook/lab';
import type { DocumentSheet, Fact } from '../../parts/blocks.js';
import { daysOf, timeOf } from '../../words/dates.js';
import type { Printing } from '../../words/printing.js';
import { sheetWords } from '../../words/sheet-words.js';
import { numberOf } from '../lot-test-report/head.js';
import { askedSection } from './asked.js';
import { characteristicSections } from './characteristics.js';
import { closingSection } from './closing.js';
import { conclusionsSection } from './conclusions.js';
import { type ComparisonReportContent, nameIn } from './content.js';
import { custodySection } from './custody.js';
import { declaredSection } from './declared.js';
import { MESSAGES } from './messages/index.js';
import { runsSection } from './runs.js';
import { seenSection } from './seen.js';
import { levelInWords, signOf, toldIn } from './words.js';

/**
 * A comparison as it is handed on: what was concluded and what was not examined, what was asked and declared, who had the
 * items, what was seen, and every declared characteristic with every value.
 */
export function comparisonReport(content: ComparisonReportContent, printing: Printing): DocumentSheet {
  const messages = MESSAGES[printing.language];
  const { identity, lab, product, result } = content;
  const { comparison } = content.case;
  const name = numberOf(identity, printing);
  const signed = identity.signatures.some(({ meaning }) => meaning === 'authorised');
  return {
    words: sheetWords(printing),
    head: {
      issuer: { name: lab.name, address: lab.address },
      kind: messages.kind,
      subject: messages.subject(comparison.title, product.name),
      number: name,
      outcome: {
        outcome: signOf(result.level),
        word: levelInWords(result.level, printing),
        sentence: toldIn(content, printing, result.sentences[0] ?? ''),
      },
      state: signed ? messages.authorised : messages.draft,
      next: messages.next,
      ...(identity.replaces
        ? { banner: messages.replaces({ ...identity.replaces, name: numberOf(identity.replaces, printing) }) }
        : {}),
      facts: factsOf(content, printing),
    },
    sections: [
      conclusionsSection(content, printing),
      askedSection(content, printing),
      declaredSection(content, printing),
      custodySection(content, printing),
      seenSection(content, printing),
      ...characteristicSections(content, printing),
      runsSection(content, printing),
      closingSection(content, printing),
    ],
    foot: { identity: `${messages.kind} ${name}`, notice: messages.notice },
    endMark: messages.endMark(name),
  };
}

function factsOf(content: ComparisonReportContent, printing: Printing): Fact[] {
  const messages = MESSAGES[printing.language];
  const { facts } = messages;
  const { identity, lab, customer, product, items } = content;
  const { comparison, reference, observations, runs } = content.case;
  const own = new Set(itemsOf(content.case));
  const of = (specimen: string) => own.has(specimen);
  const days = [
    ...observations.flatMap(({ specimen, at }) => (of(specimen) ? [at] : [])),
    ...runs.flatMap(({ specimen, startedAt }) => (of(specimen) ? [startedAt] : [])),
  ];
  return [
    { label: facts.customer, value: `${customer.name}; ${customer.contact}` },
    { label: facts.location, value: lab.address.replace(/\n/g, ', ') },
    { label: facts.product, value: `${product.name} (${product.product})` },
    {
      label: facts.comparison,
      value: `${numberOf({ number: comparison.comparison, revision: comparison.revision }, printing)}; ${timeOf(comparison.declaredAt, lab.zone)}, ${nameIn(content, comparison.declaredBy)}`,
    },
    {
      label: facts.reference,
      value: reference
        ? `${numberOf({ number: reference.reference, revision: reference.revision }, printing)}; ${timeOf(reference.frozenAt, lab.zone)}`
        : messages.none,
    },
    {
      label: facts.items,
      value: messages.received(
        [...own].slice(0, MOST_NAMED).join(', ') + (own.size > MOST_NAMED ? ` … (${own.size})` : ''),
        daysOf(
          items.map(({ receivedAt }) => receivedAt),
          lab.zone,
          printing,
        ),
      ),
    },
    { label: facts.examined, value: daysOf(days, lab.zone, printing) },
    {
      label: facts.issued,
      value: `${timeOf(identity.issuedAt, lab.zone)} (${lab.zone}); ${identity.replaces ? numberOf(identity.replaces, printing) : messages.firstIssue}`,
    },
  ];
}

/** More items than these are counted in the head and named in their table. */
const MOST_NAMED = 8;
