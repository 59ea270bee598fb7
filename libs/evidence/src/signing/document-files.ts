import { z } from 'zod';
import { parseCanonicalJson } from '../canonical-json.js';

/** What every content says of itself. */
const Identified = z.looseObject({
  identity: z.looseObject({
    number: z.string().min(1),
    revision: z.int().min(1),
    issuedAt: z.iso.datetime(),
  }),
});

/** The name that the files attached to a document share. */
export function documentStem({ number, revision }: { number: string; revision: number }): string {
  return `${number}-rev-${revision}`;
}

export interface DocumentFiles {
  /** Of the content. */
  name: string;
  json: string;
  /** The signature of the content, and the record of its entry in the ledger. */
  jws: string;
  record: string;
  issuedAt: string;
  /** Raw files of runs, where they are attached, by their names. */
  raw: Map<string, Uint8Array>;
}

/** The attached files of a document, each in its part. Throws where one is missing or belongs to another document. */
export function documentFiles(files: ReadonlyMap<string, Uint8Array>): DocumentFiles {
  const stems = [...files.keys()].filter((name) => name.endsWith('.jws')).map((name) => name.slice(0, -'.jws'.length));
  const [stem, ...more] = stems;
  if (stem === undefined || more.length > 0) throw new Error('The file has no signed data attached, or several.');
  const text = (name: string) => {
    const bytes = files.get(name);
    if (!bytes) throw new Error(`The file has no ${name} attached.`);
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  };
  const name = `${stem}.json`;
  const json = text(name);
  const { identity } = Identified.parse(parseCanonicalJson(json));
  if (documentStem(identity) !== stem)
    throw new Error(`${name} is the content of ${documentStem(identity)}, another document.`);
  const own = new Set([name, `${stem}.jws`, `${stem}-ledger.json`]);
  return {
    name,
    json,
    jws: text(`${stem}.jws`),
    record: text(`${stem}-ledger.json`),
    issuedAt: new Date(identity.issuedAt).toISOString(),
    raw: new Map([...files].filter(([one]) => !own.has(one))),
  };
}
