import {
  boundsInWords,
  limitName,
  OLD_RESULT_MARK,
  OLD_RESULTS_COUNT_NOWHERE,
  oldValueInWords,
  SAFETY_CAUTION,
} from '@breakbook/lab';
import { type LotReportContent } from '../../content/lot-report-content.js';
import { type Block, type Section } from '../../parts/blocks.js';

/**
 * What follows a lot to its report: how often was tried, what does not meet a requirement, what leave was given to depart
 * from one (ISO/IEC 17025:2017, 7.10; ISO 9001:2015, 8.7).
 */
export function affairsSection(content: LotReportContent): Section {
  return {
    heading: 'How often was tried, and what else bears on the items?',
    blocks: [
      ...attemptBlocks(content),
      ...nonconformityBlocks(content),
      ...flagBlocks(content),
      ...concessionBlocks(content),
      ...keepingBlocks(content),
      ...oldResultBlocks(content),
    ],
  };
}

function attemptBlocks({ attempts, affairs }: LotReportContent): Block[] {
  if (!attempts) return [];
  return [
    {
      block: 'table',
      title: 'Runs by plan line, every one counted',
      columns: [
        { title: 'Line' },
        { title: 'Planned', align: 'number' },
        { title: 'Runs', align: 'number' },
        { title: 'Valid', align: 'number' },
        { title: 'Invalid', align: 'number' },
        { title: 'Void', align: 'number' },
        { title: 'Valid, not asked for by the plan' },
      ],
      rows: attempts.lines.map(({ line, planned, runs, valid, invalid, void: voided, unplanned }) => [
        line,
        `${planned}`,
        `${runs}`,
        `${valid}`,
        `${invalid}`,
        `${voided}`,
        unplanned.length === 0 ? 'none' : unplanned.join(', '),
      ]),
      empty: 'the plan has no line',
    },
    {
      block: 'paragraph',
      text: `Specimens run more than once: ${attempts.repeated.length === 0 ? 'none' : attempts.repeated.map(({ specimen, runs }) => `${specimen} (runs ${runs.join(', ')})`).join('; ')}.`,
    },
    ...attempts.marks.map((text): Block => ({ block: 'paragraph', text, sign: 'does not conform' })),
    ...(affairs?.retests ?? []).map(
      ({ number, line, runs, used, reason }): Block => ({
        block: 'paragraph',
        text: `Retest ${number} was authorised: ${runs} on line ${line}, made: ${used.length === 0 ? 'none' : used.join(', ')}. ${reason}`,
      }),
    ),
  ];
}

function nonconformityBlocks({ affairs }: LotReportContent): Block[] {
  if (!affairs) return [];
  return [
    {
      block: 'table',
      title: 'Nonconformities affecting the items',
      columns: [{ title: 'No.' }, { title: 'What' }, { title: 'Opened by' }, { title: 'State' }, { title: 'Due' }],
      rows: affairs.nonconformities.map(({ number, title, source, state, due }) => [
        `${number}`,
        title,
        source,
        { text: state, strong: state === 'open' },
        due === undefined ? 'not set' : due,
      ]),
      empty: 'none recorded',
    },
  ];
}

function flagBlocks({ affairs }: LotReportContent): Block[] {
  const flags = affairs?.safetyFlags ?? [];
  if (flags.length === 0) return [];
  return [
    {
      block: 'table',
      title: 'Product-safety flags on the lot',
      columns: [{ title: 'No.' }, { title: 'What' }, { title: 'Raised' }, { title: 'State' }, { title: 'Decision' }],
      rows: flags.map(({ number, title, state, raisedAt, decision }) => [
        `${number}`,
        title,
        raisedAt.slice(0, 10),
        { text: state, strong: state === 'open' },
        decision ?? 'not decided',
      ]),
      empty: 'none',
    },
    { block: 'paragraph', tone: 'note', text: SAFETY_CAUTION },
  ];
}

function keepingBlocks({ affairs }: LotReportContent): Block[] {
  if (!affairs?.keeping && !affairs?.legalHolds?.length) return [];
  const { keeping, legalHolds = [] } = affairs;
  const held = legalHolds.map(({ number, reference }) => `${number} (${reference})`).join(', ');
  return [
    {
      block: 'paragraph',
      text: [
        ...(keeping
          ? [
              `The records of this lot are kept until ${keeping.recordsUntil}, its remnants until ${keeping.remnantsUntil}.`,
            ]
          : []),
        ...(held === '' ? [] : [`On legal hold: ${held}; nothing it covers is run or disposed of.`]),
      ].join(' '),
    },
  ];
}

function concessionBlocks({ affairs }: LotReportContent): Block[] {
  if (!affairs) return [];
  return [
    {
      block: 'table',
      title: 'Concessions and deviation permits (none changes a verdict)',
      columns: [
        { title: 'No.' },
        { title: 'Kind, state' },
        { title: 'Departs' },
        { title: 'Reaches' },
        { title: 'Until' },
        { title: 'Risk' },
      ],
      rows: affairs.concessions.map(({ number, kind, state, expired, limit, departure, bounds, until, risk }) => [
        `${number}`,
        { text: kind, under: expired ? 'granted, and over' : state },
        { text: departure, under: limit ? limitName(limit) : '' },
        boundsInWords(bounds),
        until,
        risk,
      ]),
      empty: 'none recorded',
    },
  ];
}

/** Told by tables of earlier days; printed so that nobody takes them for results of this report. */
function oldResultBlocks({ affairs }: LotReportContent): Block[] {
  const old = affairs?.oldResults ?? [];
  if (old.length === 0) return [];
  return [
    {
      block: 'table',
      title: `Old results of this lot, ${OLD_RESULT_MARK}`,
      columns: [
        { title: 'Table, line' },
        { title: 'Item' },
        { title: 'Test, quantity' },
        { title: 'As told' },
        { title: 'Day' },
        { title: 'Source' },
        { title: 'Validity as told' },
      ],
      rows: old.map((one) => [
        `${one.table}, ${one.line}`,
        one.specimen,
        `${one.test}, ${one.characteristic}`,
        oldValueInWords(one),
        one.date ?? 'unknown',
        one.source,
        one.validity,
      ]),
      empty: 'none',
    },
    { block: 'paragraph', text: OLD_RESULTS_COUNT_NOWHERE },
  ];
}
