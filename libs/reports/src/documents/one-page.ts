import type { Block, Cell, DocumentSheet, Listing, Section, Table } from '../parts/blocks.js';

/** How much of what a document says is laid on its page, where one page is all it may have. */
export interface Room {
  /** Rows of a table. */
  rows: number;
  /** Letters of a text. */
  letters: number;
  /** Height of a figure's panel, in points. */
  panel: number;
}

/** From everything to the least that still says something; the first that fits the page is taken. */
export const ROOMS: readonly Room[] = [
  { rows: Number.POSITIVE_INFINITY, letters: Number.POSITIVE_INFINITY, panel: 100 },
  { rows: Number.POSITIVE_INFINITY, letters: Number.POSITIVE_INFINITY, panel: 60 },
  { rows: 8, letters: 240, panel: 48 },
  { rows: 4, letters: 110, panel: 44 },
  { rows: 3, letters: 60, panel: 40 },
  { rows: 2, letters: 32, panel: 36 },
];

/** Words for what was left out: how many rows, and where they are. */
export interface CutWords {
  rows: (count: number) => string;
  texts: string;
}

/** A sheet with no more in it than there is room for, which says what it leaves out and where that stands. */
export function cutTo(room: Room, sheet: DocumentSheet, words: CutWords): DocumentSheet {
  if (room.rows === Number.POSITIVE_INFINITY) return sheet;
  const cut = { texts: false };
  const short = (text: string) => {
    if ([...text].length <= room.letters) return text;
    cut.texts = true;
    return `${[...text].slice(0, room.letters).join('').trimEnd()} …`;
  };
  const facts = sheet.head.facts.map(({ label, value }) => ({ label, value: short(value) }));
  const head = { ...sheet.head, facts };
  const sections = sheet.sections.map(
    (section): Section => ({
      ...section,
      blocks: section.blocks.flatMap((block) => cutBlock(block, room, { short, words })),
    }),
  );
  if (!cut.texts) return { ...sheet, head, sections };
  const note: Block = { block: 'paragraph', tone: 'note', text: words.texts };
  return {
    ...sheet,
    head,
    sections: sections.map((one, index) =>
      index === sections.length - 1 ? { ...one, blocks: [note, ...one.blocks] } : one,
    ),
  };
}

function cutBlock(
  block: Block,
  room: Room,
  { short, words }: { short: (text: string) => string; words: CutWords },
): Block[] {
  switch (block.block) {
    case 'table':
      return cutTable(block, room, { short, words });
    case 'facts':
    case 'figure beside':
      return [{ ...block, facts: block.facts.map(({ label, value }) => ({ label, value: short(value) })) }];
    case 'list':
      return cutList(block, room, words);
    default:
      return [block];
  }
}

/** Entries of a list, such as digests, are whole or not there: a part of one says nothing. */
function cutList(list: Listing, { rows }: Room, words: CutWords): Block[] {
  const more = list.items.length - rows;
  if (more <= 0) return [list];
  return [
    { ...list, items: list.items.slice(0, rows) },
    { block: 'paragraph', tone: 'note', text: words.rows(more) },
  ];
}

function cutTable(
  table: Table,
  { rows }: Room,
  { short, words }: { short: (text: string) => string; words: CutWords },
): Block[] {
  const cell = (one: Cell): Cell =>
    typeof one === 'string'
      ? short(one)
      : { ...one, text: short(one.text), ...(one.under ? { under: short(one.under) } : {}) };
  const kept = table.rows.slice(0, rows).map((row) => row.map(cell));
  const more = table.rows.length - kept.length;
  return [
    { ...table, rows: kept },
    ...(more > 0 ? [{ block: 'paragraph', tone: 'note', text: words.rows(more) } as const] : []),
  ];
}
