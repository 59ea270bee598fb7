import { nameOfLimit } from '@breakbook/acceptance';
import { boundsInWords, type Run } from '@breakbook/lab';
import { conditionsInWords } from '../../content/conditions.js';
import { GIVEN_MARKS, giversOf } from '../../content/given-by.js';
import { linesOf, personOf } from '../../content/judged-lot.js';
import type { DocumentSheet, Fact, Section } from '../../parts/blocks.js';
import { dayOf, daysOf, timeOf } from '../../words/dates.js';
import type { Printing } from '../../words/printing.js';
import { sheetWords } from '../../words/sheet-words.js';
import { termIn } from '../../words/terms.js';
import { numberOf } from '../lot-test-report/head.js';
import type { CertificateContent } from './content.js';
import { MESSAGES } from './messages.js';
import { resultsSection } from './results.js';
import { runsSection } from './runs.js';

/**
 * A certificate of test: what was tested to which limits and what came of it, the decision it rests on, and how to ask
 * whether it still holds. It points to the lot test report for everything else.
 */
export function certificateOfTest(content: CertificateContent, printing: Printing): DocumentSheet {
  const messages = MESSAGES[printing.language];
  const { identity, bundle, disposition, state } = content;
  const { lab, lot, plan } = bundle;
  const decidedAt = disposition.signatures.at(-1)?.at ?? identity.issuedAt;
  const name = numberOf(identity, printing);
  return {
    compact: true,
    words: sheetWords(printing),
    head: {
      issuer: { name: lab.name, address: lab.address },
      kind: messages.kind,
      subject: `${bundle.product.name}, ${lot.lot}: ${plan.title}`,
      number: name,
      outcome: {
        outcome: disposition.outcome,
        word: termIn(printing, disposition.outcome),
        sentence: messages.sentence({
          lot: lot.lot,
          size: lot.size,
          plan: numberOf({ number: plan.plan, revision: plan.revision }, printing),
          outcome: termIn(printing, disposition.outcome),
          day: dayOf(decidedAt, lab.zone),
        }),
      },
      state: termIn(printing, state),
      next: messages.next,
      ...(identity.replaces
        ? { banner: messages.replaces({ ...identity.replaces, name: numberOf(identity.replaces, printing) }) }
        : {}),
      facts: factsOf(content, printing),
    },
    sections: [
      resultsSection(content, printing),
      runsSection(content, printing),
      decisionSection(content, printing),
      closingSection(content, printing),
    ],
    foot: { identity: `${messages.kind} ${name}, ${termIn(printing, state)}`, notice: messages.notice },
    endMark: messages.endMark(name),
  };
}

function factsOf(content: CertificateContent, printing: Printing): Fact[] {
  const messages = MESSAGES[printing.language];
  const { facts } = messages;
  const { bundle, identity } = content;
  const { lab, customer, product, lot, plan } = bundle;
  const tested = bundle.specimens.filter(({ specimen }) => bundle.runs.some((run) => run.specimen === specimen));
  const places = [...new Set(bundle.rigs.map(({ location }) => location))];
  const methods = [
    ...new Set(
      linesOf(content).map(
        ({ method }) =>
          `${numberOf({ number: method.method, revision: method.revision }, printing)}: ${method.title} (${method.basis.replace(/\.\s*$/, '')})`,
      ),
    ),
  ];
  return [
    { label: `${facts.customer}, ${facts.contact}`, value: `${customer.name}; ${customer.contact}` },
    { label: facts.location, value: places.length > 0 ? places.join('; ') : lab.address.replace(/\n/g, ', ') },
    { label: facts.product, value: `${product.name} (${product.product})` },
    {
      label: facts.lot,
      value: messages.lotMade({
        lot: lot.lot,
        kind: termIn(printing, lot.kind),
        size: lot.size,
        from: lot.madeFrom,
        to: lot.madeTo,
      }),
    },
    {
      label: facts.plan,
      value: messages.approved(numberOf({ number: plan.plan, revision: plan.revision }, printing), plan.approvedOn),
    },
    { label: facts.method, value: methods.join('; ') },
    {
      label: facts.specimens,
      value: messages.received(
        printing.counted(tested.length, 'specimen'),
        daysOf(
          tested.map(({ receivedAt }) => receivedAt),
          lab.zone,
          printing,
        ),
      ),
    },
    {
      label: facts.drawn,
      value: lot.sampling
        ? messages.drawnBy({
            rule: lot.sampling.rule,
            by: personOf(bundle, lot.sampling.drawnBy),
            on: lot.sampling.drawnOn,
          })
        : messages.asReceived,
    },
    { label: facts.conditions, value: conditionsInWords(bundle.runs, printing) || messages.noneRecorded },
    {
      label: facts.tested,
      value: messages.testedBy({
        days: daysOf(
          bundle.runs.map(({ startedAt }) => startedAt),
          lab.zone,
          printing,
        ),
        by: names(
          content,
          bundle.runs.map(({ operator }) => operator),
          printing,
        ),
        reviewed: names(
          content,
          bundle.runs.map(({ validity }: Run) => validity?.person),
          printing,
        ),
      }),
    },
    {
      label: `${facts.issued}; ${facts.replaces}`,
      value: `${timeOf(identity.issuedAt, lab.zone)}; ${identity.replaces ? numberOf(identity.replaces, printing) : messages.firstIssue}`,
    },
  ];
}

function decisionSection(content: CertificateContent, printing: Printing): Section {
  const { decision } = MESSAGES[printing.language];
  const { disposition, affairs, report, bundle } = content;
  const { zone } = bundle.lab;
  const open = affairs.nonconformities.filter(({ state }) => state === 'open');
  const flags = (affairs.safetyFlags ?? []).filter(({ state }) => state === 'open');
  const orNone = (items: readonly string[]) => (items.length === 0 ? decision.none : items.join('; '));
  const givers = giversOf(bundle.runs);
  return {
    heading: decision.heading,
    blocks: [
      {
        block: 'facts',
        columns: 4,
        facts: [
          {
            label: decision.disposition,
            value: decision.dispositionOf(disposition.number, termIn(printing, disposition.outcome)),
          },
          {
            label: decision.deciders,
            value: disposition.signatures
              .map(({ name, role, at }) => `${name}, ${role}, ${timeOf(at, zone)}`)
              .join('; '),
          },
          { label: decision.restsOn, value: decision.report(numberOf(report, printing)) },
          { label: decision.reason, value: disposition.reason },
          {
            label: decision.nonconformities,
            value: orNone(open.map(({ number, title }) => `${number}, ${title}`)),
          },
          {
            label: decision.concessions,
            value: orNone(
              affairs.concessions
                .filter(({ state }) => state === 'granted')
                .map(
                  ({ number, departure, bounds, limit, until }) =>
                    `${number}: ${limit ? `${nameOfLimit(limit, printing.language)}, ` : ''}${departure} (${boundsInWords(bounds)}, ${until})`,
                ),
            ),
          },
          { label: decision.flags, value: orNone(flags.map(({ number, title }) => `${number}, ${title}`)) },
          {
            label: `${decision.outside}; ${decision.opinions}`,
            value: `${givers.length === 0 ? decision.none : decision.given(givers.map((one) => GIVEN_MARKS[one]).join(' '))}; ${affairs.opinions?.length ? decision.inReport : decision.none}`,
          },
        ],
      },
    ],
  };
}

/** What it says nothing of, how to ask whether it still holds, and who stands behind it. */
function closingSection(content: CertificateContent, printing: Printing): Section {
  const { reach, status, signing } = MESSAGES[printing.language];
  const { bundle, identity, state, statusUrl } = content;
  const { zone } = bundle.lab;
  const printed = status.asPrinted({ state: termIn(printing, state), at: timeOf(identity.issuedAt, zone) });
  const asked = statusUrl === undefined ? status.noUrl : `${status.title}: ${status.ask} ${statusUrl}.`;
  return {
    heading: reach.heading,
    blocks: [
      { block: 'paragraph', tone: 'note', text: reach.items(!bundle.lot.sampling).join(' ') },
      { block: 'paragraph', text: `${asked} ${printed}` },
      {
        block: 'signatures',
        ...(statusUrl === undefined
          ? {}
          : { code: { form: 'qr', text: statusUrl, alt: status.alt(statusUrl) } as const }),
        signatures: (['prepared', 'reviewed', 'authorised'] as const).map((meaning) => {
          const found = identity.signatures.find((one) => one.meaning === meaning);
          return {
            meaning: signing.meanings[meaning],
            name: found?.name ?? signing.notSigned,
            role: found?.role ?? '',
            signed: found ? `${timeOf(found.at, zone)} (${zone})` : '',
          };
        }),
      },
    ],
  };
}

function names({ bundle }: CertificateContent, keys: readonly (string | undefined)[], printing: Printing): string {
  const all = [...new Set(keys.filter((key) => key !== undefined))].map((key) => personOf(bundle, key));
  if (all.length === 0) return MESSAGES[printing.language].signing.nobody;
  return all.join(', ');
}
