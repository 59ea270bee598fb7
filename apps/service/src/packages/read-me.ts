import { type LotBundle, SOFTWARE } from '@breakbook/lab';

/** What a stranger needs to read a package without us. */
export function readMe({ lot, product, lab }: LotBundle, withoutFile: readonly string[]): string {
  return `Lot ${lot.lot} of ${product.name}
${'='.repeat(`Lot ${lot.lot} of ${product.name}`.length)}

From ${lab.name}. Made by ${SOFTWARE}.

A lot of parts that were tested until they broke, with everything that its judgement rests on. Nothing is needed to read
it but a spreadsheet and a text editor. It is a Data Package (specs.frictionlessdata.io): datapackage.json lists every
file with its size and SHA-256, and what stands in each column of each table.

tables/        tables as CSV, UTF-8: specimens, runs, results, verdicts, limits and more. Units are UCUM codes, times are
               UTC or carry their offset. A text that begins with = + - @ or a control character, which a spreadsheet
               would take for a formula, has an apostrophe before it that is no part of it.
lot/           the same as it is judged: documents as JSON, and the raw files of the runs as the rigs wrote them
result.json    what was read from the runs and concluded of the lot
photos/        photos as the cameras wrote them; tables/photos.csv says what they show
documents/     reports as they were kept, and evaluations/ the records that they were made from
ledger/        entries of the lab's ledger as JSON lines, each with the proof that it is in the tree of checkpoint.txt, the
               rows that they name, and the key that opens the checkpoint and the seal
seal.txt       a signed note over the SHA-256 of datapackage.json, by the key of the ledger
${
  withoutFile.length > 0
    ? `
NO RAW FILE is there of ${withoutFile.length === 1 ? 'run' : 'runs'} ${withoutFile.join(', ')}: their values were keyed or came from a table.
`
    : ''
}
Is it as it was handed out?

  npx breakbook check <this folder or its zip> --key <key>

The key must come from somewhere else than this package: from the lab, some other day, by another way. It is one line,
as ledger/key.txt is one. Without a key the same command shows only that the package fits itself.

Does it come to the same numbers?

  npx breakbook judge lot
  npx breakbook recompute lot --against result.json

Without our program: sha256sum of a file is the hash that datapackage.json has of it. An entry's hash is the SHA-256 of a
zero byte and its text, and the proof leads from there to the root in the checkpoint as RFC 9162, section 2.1.3.2, says. A
row's digest is the SHA-256 of its "row" member in the canonical form of RFC 8785, and stands in the entry that names it.
A checkpoint and the seal are notes signed with Ed25519 (c2sp.org/signed-note).
`;
}
