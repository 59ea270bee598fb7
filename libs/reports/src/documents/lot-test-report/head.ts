import { lotSentence } from '@breakbook/acceptance';
import { linesOf } from '../../content/judged-lot.js';
import type { LotReportContent, ReportIdentity } from '../../content/lot-report-content.js';
import type { HeadStrip } from '../../parts/blocks.js';
import { daysOf, timeOf } from '../../words/dates.js';
import { type Printing, printingOf } from '../../words/printing.js';

/** What the customer stated and the lab did not measure. */
export const STATED_BY_CUSTOMER = '†';

export function headStrip(content: LotReportContent): HeadStrip {
  const printing = printingOf(content);
  const { say } = printing;
  const { bundle, identity, lot } = content;
  const { lab, plan } = bundle;
  return {
    issuer: { name: lab.name, address: lab.address },
    kind: say('Lot test report'),
    subject: say('{product}, lot {lot}: {plan}', {
      product: bundle.product.name,
      lot: bundle.lot.lot,
      plan: plan.title,
    }),
    number: numberOf(identity, printing),
    outcome: { outcome: lot.outcome, word: say(lot.outcome), sentence: sentenceOf(content, printing) },
    ...stateOf(identity, printing),
    ...(identity.replaces
      ? {
          banner: say('Amendment. This report replaces {document}. Changed: {changed}. Reason: {because}.', {
            document: numberOf(identity.replaces, printing),
            changed: identity.replaces.changed,
            because: identity.replaces.because,
          }),
        }
      : {}),
    facts: facts(content, printing),
  };
}

/** As it was stored; in another language from the criteria it tells of. */
function sentenceOf({ lot }: LotReportContent, { language, told }: Printing): string {
  if (language === 'en') return lot.sentence;
  return lotSentence({ ...lot, criteria: lot.lines.flatMap(({ criteria }) => criteria) }, language, told);
}

/** "LTR-2407 rev. 1" */
export function numberOf(
  { number, revision }: Pick<ReportIdentity, 'number' | 'revision'>,
  { say }: Pick<Printing, 'say'>,
): string {
  return say('{number} rev. {revision}', { number, revision });
}

export function stateOf(
  { signatures }: ReportIdentity,
  { say }: Pick<Printing, 'say'>,
): { state: string; next: string } {
  const signed = (meaning: string) => signatures.some((one) => one.meaning === meaning);
  if (signed('authorised')) return { state: say('authorised'), next: say('a decision about the lot, signed apart') };
  return {
    state: say('unsigned draft'),
    next: signed('reviewed') ? say('it is authorised by signature') : say('it is reviewed and authorised by signature'),
  };
}

function facts(content: LotReportContent, printing: Printing): HeadStrip['facts'] {
  const { say } = printing;
  const { bundle, identity } = content;
  const { lab, customer, product, lot, plan } = bundle;
  const tested = bundle.specimens.filter(({ specimen }) => bundle.runs.some((run) => run.specimen === specimen));
  const places = [...new Set(bundle.rigs.map(({ location }) => location))];
  return [
    { label: say('Customer'), value: customer.name },
    { label: say('Contact'), value: customer.contact },
    {
      label: say('Location of the tests'),
      value: places.length > 0 ? places.join('; ') : lab.address.replace(/\n/g, ', '),
    },
    { label: `${say('Product')} ${STATED_BY_CUSTOMER}`, value: `${product.name} (${product.product})` },
    {
      label: `${say('Lot')} ${STATED_BY_CUSTOMER}`,
      value: say('{lot}, {kind}, {n} units, made {days}', {
        lot: lot.lot,
        kind: say(lot.kind),
        n: lot.size,
        days:
          lot.madeFrom === lot.madeTo ? lot.madeFrom : say('{low} to {high}', { low: lot.madeFrom, high: lot.madeTo }),
      }),
    },
    {
      label: say('Plan'),
      value: say('{plan} rev. {revision}, approved {day}', {
        plan: plan.plan,
        revision: plan.revision,
        day: plan.approvedOn,
      }),
    },
    {
      label: say('Method'),
      value: linesOf(content)
        .map(({ method }) =>
          say('{method} rev. {revision}: {title}', {
            method: method.method,
            revision: method.revision,
            title: method.title,
          }),
        )
        .filter((text, index, all) => all.indexOf(text) === index)
        .join('; '),
    },
    {
      label: say('Specimens received'),
      value: daysOf(
        tested.map(({ receivedAt }) => receivedAt),
        lab.zone,
        printing,
      ),
    },
    { label: say('Specimens drawn'), value: lot.sampling ? lot.sampling.drawnOn : say('not by the lab: as received') },
    {
      label: say('Tested'),
      value: daysOf(
        bundle.runs.map(({ startedAt }) => startedAt),
        lab.zone,
        printing,
      ),
    },
    { label: say('Issued'), value: `${timeOf(identity.issuedAt, lab.zone)} (${lab.zone})` },
    {
      label: say('Replaces'),
      value: identity.replaces ? numberOf(identity.replaces, printing) : say('none: first issue'),
    },
  ];
}
