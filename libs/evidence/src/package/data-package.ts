import { z } from 'zod';
import { TableSchema } from './data-table.js';

/** Files that speak of all others, so that none of them can be listed among them. */
export const DESCRIPTOR = 'datapackage.json';
export const SEAL = 'seal.txt';
/** Where the ledger's part of a package stands. */
export const LEDGER = {
  key: 'ledger/key.txt',
  checkpoint: 'ledger/checkpoint.txt',
  entries: 'ledger/entries.jsonl',
  rows: 'ledger/rows.jsonl',
} as const;
/** What a package holds beside the lot where it is evidence for a safety flag. */
export const SAFETY_FLAG = { readFirst: 'safety-flag/READ-FIRST.txt', flag: 'safety-flag/flag.json' } as const;
/** The folder that the command line judges. */
export const LOT_FOLDER = 'lot';

/** A path within a package: one or more names of plain signs, none beginning with a dot. */
export const PackagePath = z
  .string()
  .max(300)
  .regex(/^[A-Za-z0-9_][A-Za-z0-9._ -]{0,99}(\/[A-Za-z0-9_][A-Za-z0-9._ -]{0,99})*$/)
  .refine((path) => path.split('/').every((name) => !/[. ]$/.test(name)), { error: 'a name ends with a dot or blank' });

const Resource = z.strictObject({
  name: z.string().regex(/^[a-z0-9._-]+$/),
  profile: z.enum(['data-resource', 'tabular-data-resource']),
  path: PackagePath,
  title: z.string().min(1),
  format: z.string().min(1),
  mediatype: z.string().min(1),
  encoding: z.literal('utf-8').optional(),
  bytes: z.int().min(0),
  hash: z.string().regex(/^sha256:[0-9a-f]{64}$/),
  schema: TableSchema.optional(),
  /** What whoever sent the file called it, where that could be no name in a folder. */
  sentAs: z.string().optional(),
});
export type PackageResource = z.infer<typeof Resource>;

/**
 * The descriptor of a package: a Data Package of version 1 (specs.frictionlessdata.io), its tables tabular data
 * resources, every file listed with its size and SHA-256.
 */
export const DataPackage = z
  .strictObject({
    profile: z.literal('data-package'),
    name: z.string().regex(/^[a-z0-9._-]+$/),
    title: z.string().min(1),
    description: z.string().min(1),
    created: z.iso.datetime(),
    /** Our own: the form of the package, and by which software it was made. */
    form: z.literal('breakbook package 1'),
    software: z.string().min(1),
    lot: z.string().min(1),
    resources: z.array(Resource).min(1),
  })
  .superRefine(({ resources }, context) => {
    for (const member of ['name', 'path'] as const) {
      const seen = new Set<string>([DESCRIPTOR, SEAL]);
      for (const [index, resource] of resources.entries()) {
        // Two names that differ by case alone are one file on many disks.
        const value = resource[member].toLowerCase();
        if (seen.has(value))
          context.addIssue({ code: 'custom', path: ['resources', index, member], message: 'stands twice' });
        seen.add(value);
      }
    }
  });
export type DataPackage = z.infer<typeof DataPackage>;
