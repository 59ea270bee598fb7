import type { Specimen } from '@breakbook/lab';
import type { LotReportContent } from '../../content/lot-report-content.js';
import type { Block, Section } from '../../parts/blocks.js';
import { dayOf } from '../../words/dates.js';
import { type Printing, printingOf } from '../../words/printing.js';
import { both, measuredInWords, quantityInWords } from '../../words/units.js';
import { STATED_BY_CUSTOMER } from './head.js';

/** What was tested, where it came from, and in what condition it arrived. */
export function specimensSection(content: LotReportContent): Section {
  const { bundle } = content;
  const printing = printingOf(content);
  const { say } = printing;
  const { product } = bundle;
  const tested = bundle.specimens.filter(({ specimen }) => bundle.runs.some((run) => run.specimen === specimen));
  const untested = bundle.specimens.length - tested.length;
  const marked = measuredInWords(
    { value: { kind: 'exact', value: product.markedMaximum.value }, unit: product.markedMaximum.unit },
    printing,
  );
  return {
    heading: say('What was tested?'),
    blocks: [
      {
        block: 'facts',
        columns: 3,
        facts: [
          { label: `${say('Model')} ${STATED_BY_CUSTOMER}`, value: `${product.name}: ${product.description}` },
          {
            label: `${say('Bead and brake')} ${STATED_BY_CUSTOMER}`,
            value: `${say(product.beadStyle)}, ${say(`${product.brakeKind} brake`)}`,
          },
          {
            label: `${say('Marked maximum pressure')} ${STATED_BY_CUSTOMER}`,
            value: say('{pressure}, gauge', { pressure: both(marked) }),
          },
          ...(product.innerWidth
            ? [
                {
                  label: `${say('Inner width')} ${STATED_BY_CUSTOMER}`,
                  value: measuredInWords(
                    { value: { kind: 'exact', value: product.innerWidth.value }, unit: product.innerWidth.unit },
                    printing,
                  )[0],
                },
              ]
            : []),
        ],
      },
      {
        block: 'table',
        columns: [
          { title: say('Specimen') },
          { title: say('Serial') },
          { title: say('Origin') },
          { title: say('Received') },
          { title: say('Condition at receipt') },
          { title: say('Mass'), align: 'number' },
          { title: `${say('Build')} ${STATED_BY_CUSTOMER}` },
        ],
        rows: tested.map((one) => [
          one.specimen,
          one.serial ?? say('no serial: {reason}', { reason: one.noSerialReason ?? say('no reason given') }),
          say(one.origin),
          dayOf(one.receivedAt, bundle.lab.zone),
          one.condition,
          one.mass ? quantityInWords(one.mass.value, one.mass.unit, printing) : '',
          buildOf(one, printing),
        ]),
        empty: say('no specimen was tested'),
      },
      note(untested, printing),
    ],
  };
}

function buildOf({ build = {} }: Specimen, { say }: Printing): string {
  const entries = Object.entries(build);
  return entries.length === 0 ? say('none stated') : entries.map(([name, value]) => `${name} ${value}`).join('; ');
}

function note(untested: number, { say }: Printing): Block {
  return {
    block: 'paragraph',
    tone: 'note',
    text: [
      untested === 0
        ? say('Every specimen on record was tested.')
        : say('{n} further on record and not tested.', { n: untested }),
      say('Photographs of the specimens: none with this report.'),
      `${STATED_BY_CUSTOMER} ${say('stated by the customer; the lab did not measure it and answers for nothing that rests on it.')}`,
    ].join(' '),
  };
}
