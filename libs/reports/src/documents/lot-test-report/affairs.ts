import { nameOfLimit } from '@breakbook/acceptance';
import {
  type ConcessionBounds,
  OLD_RESULT_MARK,
  OLD_RESULTS_COUNT_NOWHERE,
  oldValueInWords,
  SAFETY_CAUTION,
} from '@breakbook/lab';
import type { LotReportContent } from '../../content/lot-report-content.js';
import type { Block, Section } from '../../parts/blocks.js';
import { printingOf, type ReportSay } from '../../words/printing.js';

/**
 * What follows a lot to its report: how often was tried, what does not meet a requirement, what leave was given to depart
 * from one (ISO/IEC 17025:2017, 7.10; ISO 9001:2015, 8.7).
 */
export function affairsSection(content: LotReportContent): Section {
  const { say } = printingOf(content);
  return {
    heading: say('How often was tried, and what else bears on the items?'),
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

function attemptBlocks(content: LotReportContent): Block[] {
  const { attempts, affairs } = content;
  if (!attempts) return [];
  const { say, told } = printingOf(content);
  const repeated = attempts.repeated.map(({ specimen, runs }) =>
    say('{specimen} (runs {runs})', { specimen, runs: runs.join(', ') }),
  );
  return [
    {
      block: 'table',
      title: say('Runs by plan line, every one counted'),
      columns: [
        { title: say('Line') },
        { title: say('Planned'), align: 'number' },
        { title: say('Runs'), align: 'number' },
        { title: say('Valid'), align: 'number' },
        { title: say('Invalid'), align: 'number' },
        { title: say('Void'), align: 'number' },
        { title: say('Valid, not asked for by the plan') },
      ],
      rows: attempts.lines.map(({ line, planned, runs, valid, invalid, void: voided, unplanned }) => [
        line,
        `${planned}`,
        `${runs}`,
        `${valid}`,
        `${invalid}`,
        `${voided}`,
        unplanned.length === 0 ? say('none') : unplanned.join(', '),
      ]),
      empty: say('the plan has no line'),
    },
    {
      block: 'paragraph',
      text: say('Specimens run more than once: {specimens}.', {
        specimens: repeated.length === 0 ? say('none') : repeated.join('; '),
      }),
    },
    ...attempts.marks.map((mark): Block => ({ block: 'paragraph', text: told(mark), sign: 'does not conform' })),
    ...(affairs?.retests ?? []).map(
      ({ number, line, runs, used, reason }): Block => ({
        block: 'paragraph',
        text: say('Retest {number} was authorised: {runs} on line {line}, made: {used}. {reason}', {
          number,
          runs,
          line,
          used: used.length === 0 ? say('none') : used.join(', '),
          reason,
        }),
      }),
    ),
  ];
}

function nonconformityBlocks(content: LotReportContent): Block[] {
  const { affairs } = content;
  if (!affairs) return [];
  const { say } = printingOf(content);
  return [
    {
      block: 'table',
      title: say('Nonconformities affecting the items'),
      columns: [
        { title: say('No.') },
        { title: say('What') },
        { title: say('Opened by') },
        { title: say('State') },
        { title: say('Due') },
      ],
      rows: affairs.nonconformities.map(({ number, title, source, state, due }) => [
        `${number}`,
        title,
        say(source),
        { text: say(state), strong: state === 'open' },
        due === undefined ? say('not set') : due,
      ]),
      empty: say('none recorded'),
    },
  ];
}

function flagBlocks(content: LotReportContent): Block[] {
  const flags = content.affairs?.safetyFlags ?? [];
  if (flags.length === 0) return [];
  const { say } = printingOf(content);
  return [
    {
      block: 'table',
      title: say('Product-safety flags on the lot'),
      columns: [
        { title: say('No.') },
        { title: say('What') },
        { title: say('Raised') },
        { title: say('State') },
        { title: say('Decision') },
      ],
      rows: flags.map(({ number, title, state, raisedAt, decision }) => [
        `${number}`,
        title,
        raisedAt.slice(0, 10),
        { text: say(state), strong: state === 'open' },
        decision ?? say('not decided'),
      ]),
      empty: say('none'),
    },
    { block: 'paragraph', tone: 'note', text: say(SAFETY_CAUTION) },
  ];
}

function keepingBlocks(content: LotReportContent): Block[] {
  const { affairs } = content;
  if (!affairs?.keeping && !affairs?.legalHolds?.length) return [];
  const { say } = printingOf(content);
  const { keeping, legalHolds = [] } = affairs;
  const held = legalHolds.map(({ number, reference }) => `${number} (${reference})`).join(', ');
  return [
    {
      block: 'paragraph',
      text: [
        ...(keeping
          ? [
              say('The records of this lot are kept until {records}, its remnants until {remnants}.', {
                records: keeping.recordsUntil,
                remnants: keeping.remnantsUntil,
              }),
            ]
          : []),
        ...(held === '' ? [] : [say('On legal hold: {held}; nothing it covers is run or disposed of.', { held })]),
      ].join(' '),
    },
  ];
}

function concessionBlocks(content: LotReportContent): Block[] {
  const { affairs } = content;
  if (!affairs) return [];
  const { say, language } = printingOf(content);
  return [
    {
      block: 'table',
      title: say('Concessions and deviation permits (none changes a verdict)'),
      columns: [
        { title: say('No.') },
        { title: say('Kind, state') },
        { title: say('Departs') },
        { title: say('Reaches') },
        { title: say('Until') },
        { title: say('Risk') },
      ],
      rows: affairs.concessions.map(({ number, kind, state, expired, limit, departure, bounds, until, risk }) => [
        `${number}`,
        { text: say(kind), under: expired ? say('granted, and over') : say(state) },
        { text: departure, under: limit ? nameOfLimit(limit, language) : '' },
        reachOf(bounds, say),
        until,
        risk,
      ]),
      empty: say('none recorded'),
    },
  ];
}

/** How far a concession reaches. */
function reachOf(bounds: ConcessionBounds, say: ReportSay): string {
  if ('quantity' in bounds) return bounds.quantity === 1 ? say('1 unit') : say('{n} units', { n: bounds.quantity });
  const serials = bounds.serials.join(', ');
  return bounds.serials.length === 1 ? say('serial {serials}', { serials }) : say('serials {serials}', { serials });
}

/** Told by tables of earlier days; printed so that nobody takes them for results of this report. */
function oldResultBlocks(content: LotReportContent): Block[] {
  const old = content.affairs?.oldResults ?? [];
  if (old.length === 0) return [];
  const { say, told } = printingOf(content);
  return [
    {
      block: 'table',
      title: say('Old results of this lot, {mark}', { mark: say(OLD_RESULT_MARK) }),
      columns: [
        { title: say('Table, line') },
        { title: say('Item') },
        { title: say('Test, quantity') },
        { title: say('As told') },
        { title: say('Day') },
        { title: say('Source') },
        { title: say('Validity as told') },
      ],
      rows: old.map((one) => [
        `${one.table}, ${one.line}`,
        one.specimen,
        `${one.test}, ${one.characteristic}`,
        told(oldValueInWords(one)),
        one.date ?? say('unknown'),
        one.source,
        one.validity,
      ]),
      empty: say('none'),
    },
    { block: 'paragraph', text: say(OLD_RESULTS_COUNT_NOWHERE) },
  ];
}
