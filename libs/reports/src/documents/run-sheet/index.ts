import { nameOfLimit } from '@breakbook/acceptance';
import type { VerdictOutcome } from '@breakbook/lab';
import { conditionsInWords } from '../../content/conditions.js';
import { personOf } from '../../content/judged-lot.js';
import type { DocumentSheet, Fact, Section } from '../../parts/blocks.js';
import { dayOf, timeOf } from '../../words/dates.js';
import type { Printing } from '../../words/printing.js';
import { sheetWords } from '../../words/sheet-words.js';
import { termIn } from '../../words/terms.js';
import { worstOf } from '../certificate-of-test/results.js';
import { numberOf } from '../lot-test-report/head.js';
import { cutTo, type Room } from '../one-page.js';
import { conductSection } from './conduct.js';
import type { RunSheetContent } from './content.js';
import { MESSAGES } from './messages.js';
import { resultsSection } from './results.js';
import { runOf, validityOf } from './run-of.js';

/** One run on one page: what it showed, how it went, with what it was measured, and who stands behind it. */
export function runSheet(content: RunSheetContent, printing: Printing, room: Room): DocumentSheet {
  const messages = MESSAGES[printing.language];
  const { identity, bundle, report } = content;
  const run = runOf(content);
  const name = numberOf(identity, printing);
  const reportName = report && numberOf(report, printing);
  const sheet: DocumentSheet = {
    compact: true,
    words: sheetWords(printing),
    head: {
      issuer: { name: bundle.lab.name, address: bundle.lab.address },
      kind: messages.kind,
      subject: messages.subject({
        run: run.run,
        specimen: run.specimen,
        product: bundle.product.name,
        lot: bundle.lot.lot,
      }),
      number: name,
      outcome: outcomeOf(content, printing),
      state: termIn(printing, validityOf(content)),
      next:
        content.refused.length === 0 && !run.validity
          ? messages.next.decide
          : reportName === undefined
            ? messages.next.noReport
            : messages.next.report(reportName),
      ...(identity.replaces
        ? { banner: messages.replaces({ ...identity.replaces, name: numberOf(identity.replaces, printing) }) }
        : {}),
      facts: factsOf(content, printing),
    },
    sections: [
      resultsSection(content, printing),
      conductSection(content, printing, room),
      reachSection(content, printing),
    ],
    foot: { identity: `${messages.kind} ${name}`, notice: messages.notice },
    endMark: messages.endMark(name),
  };
  return cutTo(room, sheet, {
    rows: (count) => messages.cut.rows(count, reportName),
    texts: messages.cut.texts(reportName),
  });
}

function outcomeOf(
  content: RunSheetContent,
  printing: Printing,
): { outcome: VerdictOutcome; word: string; sentence: string } {
  const { sentence } = MESSAGES[printing.language];
  const { validity } = runOf(content);
  const none = (text: string) => ({
    outcome: 'not evaluated' as const,
    word: termIn(printing, 'not evaluated'),
    sentence: text,
  });
  if (content.refused.length > 0) return none(sentence.refused);
  if (!validity) return none(sentence.notDecided);
  const by = personOf(content.bundle, validity.person);
  const said = termIn(printing, validity.validity);
  if (validity.validity === 'invalid' || validity.validity === 'void') {
    const why = [validity.reason && termIn(printing, validity.reason), validity.note].filter(
      (one) => one !== undefined,
    );
    return none(sentence.other({ validity: said, by, why: why.join('; ') }));
  }
  const verdicts = content.judgement?.verdicts ?? [];
  const worst = worstOf(verdicts);
  const told = verdicts.map(({ outcome, limit }) =>
    sentence.verdict(termIn(printing, outcome), nameOfLimit(limit, printing.language)),
  );
  const words = told.length === 0 ? sentence.noLimit : `${told.join('; ')}.`;
  return {
    outcome: worst,
    word: termIn(printing, worst),
    sentence: sentence.valid({ validity: said, by, verdicts: words.charAt(0).toUpperCase() + words.slice(1) }),
  };
}

function factsOf(content: RunSheetContent, printing: Printing): Fact[] {
  const messages = MESSAGES[printing.language];
  const { facts } = messages;
  const { bundle, identity } = content;
  const { lab, customer, plan, lot } = bundle;
  const run = runOf(content);
  const [specimen] = bundle.specimens;
  const [method] = bundle.methods;
  const [rig] = bundle.rigs;
  const line = plan.lines.find((one) => one.line === run.planLine);
  const build = Object.entries(specimen?.build ?? {}).map(([name, value]) => `${name} ${value}`);
  return [
    { label: facts.customer, value: `${customer.name}; ${customer.contact}` },
    { label: facts.location, value: rig?.location ?? lab.address.replace(/\n/g, ', ') },
    {
      label: facts.method,
      value: method
        ? `${numberOf({ number: method.method, revision: method.revision }, printing)}: ${method.title} (${method.basis.replace(/\.\s*$/, '')})`
        : numberOf({ number: run.method, revision: run.methodRevision }, printing),
    },
    {
      label: facts.specimen,
      value: specimen
        ? `${specimen.specimen}, ${specimen.serial === undefined ? messages.noSerial(specimen.noSerialReason ?? '') : messages.serial(specimen.serial)}, ${termIn(printing, specimen.origin)}`
        : run.specimen,
    },
    { label: facts.condition, value: specimen?.condition ?? messages.noneRecorded },
    { label: facts.build, value: build.length === 0 ? messages.noneStated : build.join('; ') },
    {
      label: facts.plan,
      value: `${numberOf({ number: plan.plan, revision: plan.revision }, printing)}, ${messages.line(run.planLine, line?.title ?? '')}`,
    },
    {
      label: facts.rig,
      value: `${run.rig === undefined ? messages.keyed : `${run.rig}${rig ? `, ${rig.name}` : ''}`}; ${personOf(bundle, run.operator)}`,
    },
    { label: facts.started, value: `${timeOf(run.startedAt, lab.zone)} (${lab.zone})` },
    { label: facts.conditions, value: conditionsInWords([run], printing) || messages.noneRecorded },
    {
      label: facts.received,
      value: `${specimen ? dayOf(specimen.receivedAt, lab.zone) : '–'}; ${lot.sampling ? `${lot.sampling.drawnOn}, ${lot.sampling.rule}, ${personOf(bundle, lot.sampling.drawnBy)}` : '–'}`,
    },
    {
      label: facts.issued,
      value: `${timeOf(identity.issuedAt, lab.zone)}; ${identity.replaces ? numberOf(identity.replaces, printing) : messages.firstIssue}`,
    },
  ];
}

function reachSection(content: RunSheetContent, printing: Printing): Section {
  const { people, equipment } = MESSAGES[printing.language];
  const { zone } = content.bundle.lab;
  const printed = people.status(`${timeOf(content.identity.issuedAt, zone)} (${zone})`);
  return {
    heading: people.heading,
    blocks: [
      { block: 'paragraph', tone: 'note', text: `${people.reach} ${printed} ${equipment.read(content.software)}` },
    ],
  };
}
