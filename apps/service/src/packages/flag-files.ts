import { canonicalJson, type DataTable, formatTable, SAFETY_FLAG } from '@breakbook/evidence';
import { SAFETY_CAUTION } from '@breakbook/lab';
import type { Reader, tables } from '@breakbook/records';
import { flagHistory } from '../safety-flags/flags-of.js';
import { touchedLots } from '../safety-flags/touched-lots.js';
import type { PackedFile } from './package-files.js';

/** What a package holds beside the lot where it is evidence for a safety flag. */
export async function flagFiles(reader: Reader, flag: tables.SafetyFlag): Promise<PackedFile[]> {
  const history = await flagHistory(reader, flag);
  const touched = await touchedLots(reader, flag);
  const table: DataTable = {
    name: 'touched-lots',
    title: 'Lots that what was seen may touch, as far as they can be named today',
    schema: {
      primaryKey: ['lot'],
      missingValues: [''],
      fields: [
        { name: 'lot', type: 'string', description: 'the lot', constraints: { required: true } },
        { name: 'product', type: 'string', description: 'its product', constraints: { required: true } },
        { name: 'because', type: 'string', description: 'why it may be touched', constraints: { required: true } },
      ],
    },
    rows: touched.map(({ lot, product, because }) => ({ lot, product, because: because.join('; ') })),
  };
  return [
    {
      path: SAFETY_FLAG.readFirst,
      title: 'What this program does not decide',
      format: 'txt',
      mediatype: 'text/plain',
      content: Buffer.from(
        `Safety flag ${flag.number}\n\n${SAFETY_CAUTION}\n\nflag.json has what was said of it, each time, by whom and when. tables/touched-lots.csv names\nthe lots that can be named today; that a lot stands there says that it may be touched, not that it is.\n`,
      ),
    },
    {
      path: SAFETY_FLAG.flag,
      title: `Safety flag ${flag.number}, as it was said each time`,
      format: 'json',
      mediatype: 'application/json',
      content: Buffer.from(`${canonicalJson(history)}\n`),
    },
    {
      path: `tables/${table.name}.csv`,
      title: table.title,
      format: 'csv',
      mediatype: 'text/csv',
      content: Buffer.from(formatTable(table)),
      schema: table.schema,
    },
  ];
}
