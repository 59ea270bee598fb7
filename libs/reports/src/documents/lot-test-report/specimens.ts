import { type Specimen } from '@breakbook/lab';
import { printDeclared, printQuantity, unitSymbol } from '@breakbook/units';
import { type LotReportContent } from '../../content/lot-report-content.js';
import { type Block, type Section } from '../../parts/blocks.js';
import { dayOf } from '../../words/dates.js';
import { both, measuredInWords } from '../../words/units.js';
import { STATED_BY_CUSTOMER } from './head.js';

/** What was tested, where it came from, and in what condition it arrived. */
export function specimensSection(content: LotReportContent): Section {
  const { bundle } = content;
  const { product } = bundle;
  const tested = bundle.specimens.filter(({ specimen }) => bundle.runs.some((run) => run.specimen === specimen));
  const untested = bundle.specimens.length - tested.length;
  const marked = measuredInWords({
    value: { kind: 'exact', value: product.markedMaximum.value },
    unit: product.markedMaximum.unit,
  });
  return {
    heading: 'What was tested?',
    blocks: [
      {
        block: 'facts',
        columns: 3,
        facts: [
          { label: `Model ${STATED_BY_CUSTOMER}`, value: `${product.name}: ${product.description}` },
          { label: `Bead and brake ${STATED_BY_CUSTOMER}`, value: `${product.beadStyle}, ${product.brakeKind} brake` },
          { label: `Marked maximum pressure ${STATED_BY_CUSTOMER}`, value: `${both(marked)}, gauge` },
          ...(product.innerWidth
            ? [{ label: `Inner width ${STATED_BY_CUSTOMER}`, value: printQuantity(product.innerWidth) }]
            : []),
        ],
      },
      {
        block: 'table',
        columns: [
          { title: 'Specimen' },
          { title: 'Serial' },
          { title: 'Origin' },
          { title: 'Received' },
          { title: 'Condition at receipt' },
          { title: 'Mass', align: 'number' },
          { title: `Build ${STATED_BY_CUSTOMER}` },
        ],
        rows: tested.map((one) => [
          one.specimen,
          one.serial ?? `no serial: ${one.noSerialReason ?? 'no reason given'}`,
          one.origin,
          dayOf(one.receivedAt, bundle.lab.zone),
          one.condition,
          one.mass ? `${printDeclared(one.mass.value)} ${unitSymbol(one.mass.unit)}` : '',
          buildOf(one),
        ]),
        empty: 'no specimen was tested',
      },
      note(untested),
    ],
  };
}

function buildOf({ build = {} }: Specimen): string {
  const entries = Object.entries(build);
  return entries.length === 0 ? 'none stated' : entries.map(([name, value]) => `${name} ${value}`).join('; ');
}

function note(untested: number): Block {
  return {
    block: 'paragraph',
    tone: 'note',
    text: `${untested === 0 ? 'Every specimen on record was tested.' : `${untested} further on record and not tested.`} Photographs of the specimens: none with this report. ${STATED_BY_CUSTOMER} stated by the customer; the lab did not measure it and answers for nothing that rests on it.`,
  };
}
