import { linesOf } from '../../content/judged-lot.js';
import { type LotReportContent, type ReportIdentity } from '../../content/lot-report-content.js';
import { type HeadStrip } from '../../parts/blocks.js';
import { daysOf, timeOf } from '../../words/dates.js';

/** What the customer stated and the lab did not measure. */
export const STATED_BY_CUSTOMER = '†';

export function headStrip(content: LotReportContent): HeadStrip {
  const { bundle, identity, lot } = content;
  const { lab, plan } = bundle;
  return {
    issuer: { name: lab.name, address: lab.address },
    kind: 'Lot test report',
    subject: `${bundle.product.name}, lot ${bundle.lot.lot}: ${plan.title}`,
    number: numberOf(identity),
    outcome: { outcome: lot.outcome, sentence: lot.sentence },
    ...stateOf(identity),
    ...(identity.replaces
      ? {
          banner: `Amendment. This report replaces ${identity.replaces.number} rev. ${identity.replaces.revision}. Changed: ${identity.replaces.changed}. Reason: ${identity.replaces.because}.`,
        }
      : {}),
    facts: facts(content),
  };
}

/** "LTR-2407 rev. 1" */
export function numberOf({ number, revision }: ReportIdentity): string {
  return `${number} rev. ${revision}`;
}

export function stateOf({ signatures }: ReportIdentity): { state: string; next: string } {
  const signed = (meaning: string) => signatures.some((one) => one.meaning === meaning);
  if (signed('authorised')) return { state: 'authorised', next: 'a decision about the lot, signed apart' };
  return {
    state: 'unsigned draft',
    next: signed('reviewed') ? 'it is authorised by signature' : 'it is reviewed and authorised by signature',
  };
}

function facts(content: LotReportContent): HeadStrip['facts'] {
  const { bundle, identity } = content;
  const { lab, customer, product, lot, plan } = bundle;
  const tested = bundle.specimens.filter(({ specimen }) => bundle.runs.some((run) => run.specimen === specimen));
  const places = [...new Set(bundle.rigs.map(({ location }) => location))];
  return [
    { label: 'Customer', value: customer.name },
    { label: 'Contact', value: customer.contact },
    { label: 'Location of the tests', value: places.length > 0 ? places.join('; ') : lab.address.replace(/\n/g, ', ') },
    { label: `Product ${STATED_BY_CUSTOMER}`, value: `${product.name} (${product.product})` },
    {
      label: `Lot ${STATED_BY_CUSTOMER}`,
      value: `${lot.lot}, ${lot.kind}, ${lot.size} units, made ${lot.madeFrom === lot.madeTo ? lot.madeFrom : `${lot.madeFrom} to ${lot.madeTo}`}`,
    },
    { label: 'Plan', value: `${plan.plan} rev. ${plan.revision}, approved ${plan.approvedOn}` },
    {
      label: 'Method',
      value: linesOf(content)
        .map(({ method }) => `${method.method} rev. ${method.revision}: ${method.title}`)
        .filter((text, index, all) => all.indexOf(text) === index)
        .join('; '),
    },
    {
      label: 'Specimens received',
      value: daysOf(
        tested.map(({ receivedAt }) => receivedAt),
        lab.zone,
      ),
    },
    { label: 'Specimens drawn', value: lot.sampling ? lot.sampling.drawnOn : 'not by the lab: as received' },
    {
      label: 'Tested',
      value: daysOf(
        bundle.runs.map(({ startedAt }) => startedAt),
        lab.zone,
      ),
    },
    { label: 'Issued', value: `${timeOf(identity.issuedAt, lab.zone)} (${lab.zone})` },
    {
      label: 'Replaces',
      value: identity.replaces ? `${identity.replaces.number} rev. ${identity.replaces.revision}` : 'none: first issue',
    },
  ];
}
