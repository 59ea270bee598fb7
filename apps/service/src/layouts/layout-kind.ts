import type { Layout } from '@breakbook/lab';
import { tables } from '@breakbook/records';
import { kind } from '../records/kind.js';
import type { Names } from '../records/names.js';

export const LAYOUT = kind<Layout, tables.Layout, tables.LayoutRevision>({
  word: 'layout',
  keyField: 'layout',
  nouns: tables.Layout,
  versions: tables.LayoutRevision,
  async anchor(content, names) {
    const rigId = await names.idOf(tables.Rig, content.rig, '/rig');
    if (rigId !== '') await noteOtherLayout(names, content, rigId);
    return { rigId };
  },
  async columns(content, names) {
    noteDoubled(names, content, 'column');
    noteDoubled(names, content, 'channel');
    return { content };
  },
  contentOf: ({ content }) => content,
  proposedAs: 'layoutRevisionId',
});

/** A run names its rig and the revision of the layout, so a rig has one layout. */
async function noteOtherLayout(names: Names, { layout, rig }: Layout, rigId: string): Promise<void> {
  const other = (await names.reader.find(tables.Layout, { rigId })).find(({ key }) => key !== layout);
  if (other)
    names.note('state.conflict', '/rig', `rig ${rig} has layout ${other.key} already. Add a revision of that.`, rig);
}

function noteDoubled(names: Names, { columns }: Layout, field: 'column' | 'channel'): void {
  const seen = new Set<string>();
  for (const [index, one] of columns.entries()) {
    if (seen.has(one[field]))
      names.note('meta.duplicate', `/columns/${index}/${field}`, `stands twice. Name each ${field} once.`, one[field]);
    seen.add(one[field]);
  }
}
