import fs from 'node:fs';
import {
  attachedFiles,
  documentFiles,
  type Finding,
  KeyList,
  type Known,
  parseDocumentRecord,
  parseEntry,
  type VerifiedDocument,
  verifyDocument,
} from '@breakbook/evidence';
import { EXIT, Refusal, readJson, shown } from '@breakbook/lab';
import { z } from 'zod';
import { printable, wrapped } from '../terminal.js';

export interface VerifyOptions {
  /** File of the lab's public keys, or the address of its service. */
  keys?: string;
  /** Where keys that were fetched are kept for the next time. */
  saveKeys?: string;
  /** A checkpoint that was kept elsewhere, with the proof that the document's entry is under it. */
  checkpoint?: string;
  proof?: string;
  json?: boolean;
}

const QUESTIONS: Record<Finding['asks'], string> = {
  digest: 'Is every byte as it was signed?',
  signature: 'Did the lab sign it?',
  attachment: 'Are the attached data those that were signed?',
  ledger: 'Does its content stand in the ledger?',
  checkpoint: 'Is that ledger the one the lab signed for?',
};

const ANSWERS = { true: 'yes', false: 'NO', undefined: 'not asked' } as const;

/** Is each file the document that the lab signed? Asks nobody but, where an address is given in place of keys, for keys. */
export async function verifyCommand(files: readonly string[], options: VerifyOptions): Promise<number> {
  const found: { file: string; verified: VerifiedDocument }[] = [];
  for (const file of files) {
    const bytes = documentAt(file);
    const known = await knownOf(bytes, options);
    found.push({ file, verified: await verifyDocument(bytes, known) });
  }
  console.log(
    options.json
      ? JSON.stringify(
          found.map(({ file, verified: { findings } }) => ({ file, outcome: outcomeOf(findings), findings })),
          (_, value) => value ?? null,
          2,
        )
      : found.map(({ file, verified }) => sheetOf(file, verified.findings)).join('\n\n'),
  );
  const outcomes = found.map(({ verified }) => outcomeOf(verified.findings));
  if (outcomes.includes('does not hold')) return EXIT.doesNotMeet;
  return outcomes.includes('not wholly asked') ? EXIT.undecided : EXIT.done;
}

type Outcome = 'holds' | 'does not hold' | 'not wholly asked';

function outcomeOf(findings: readonly Finding[]): Outcome {
  if (findings.some(({ holds }) => holds === false)) return 'does not hold';
  return findings.every(({ holds }) => holds) ? 'holds' : 'not wholly asked';
}

function sheetOf(file: string, findings: readonly Finding[]): string {
  const outcome = outcomeOf(findings);
  const head = {
    holds: 'it is the document that the lab signed',
    'does not hold': 'it is NOT the document that a lab signed',
    'not wholly asked': 'nothing speaks against it, and not everything could be asked',
  }[outcome];
  const lines = findings.map(({ asks, holds, says }) =>
    [`${QUESTIONS[asks]} ${ANSWERS[`${holds}`]}`, wrapped(printable(`${says}.`), 96, '    ')].join('\n'),
  );
  const hint =
    outcome === 'not wholly asked'
      ? [wrapped('Give the public keys of the lab by --keys: a file, or the address of its service.')]
      : [];
  return [`${printable(file)}: ${head}`, ...lines, ...hint].join('\n');
}

/** The bytes of a document; refused where there is no such file, or it is no PDF. */
export function documentAt(file: string): Uint8Array {
  const bytes = bytesAt(file, 'a PDF that a lab handed out');
  if (Buffer.from(bytes.subarray(0, 5)).toString('latin1') === '%PDF-') return bytes;
  throw new Refusal({
    code: 'file.type-mismatch',
    file,
    detail: `${shown(file)} is no PDF.`,
    expected: 'a PDF that a lab handed out',
  });
}

function bytesAt(file: string, expected: string): Uint8Array {
  try {
    return fs.readFileSync(file);
  } catch (error) {
    throw new Refusal({
      code: 'file.missing',
      file,
      detail: `${shown(file)} cannot be read: ${(error as Error).message}`,
      expected,
    });
  }
}

async function knownOf(bytes: Uint8Array, options: VerifyOptions): Promise<Known> {
  const { checkpoint, proof } = options;
  if ((checkpoint === undefined) !== (proof === undefined))
    throw new Refusal({
      code: 'query.invalid',
      parameter: checkpoint === undefined ? '--checkpoint' : '--proof',
      detail: 'A checkpoint kept elsewhere and the proof that the entry is under it go together.',
      action: 'Ask the service for the proof: /api/ledger/<entry>/proof?size=<entries under the checkpoint>.',
    });
  const keys = options.keys === undefined ? undefined : await keysFrom(options.keys, bytes);
  if (keys && options.saveKeys !== undefined)
    fs.writeFileSync(options.saveKeys, `${JSON.stringify(keys, null, 2)}\n`, { flag: 'wx' });
  return {
    ...(keys ? { keys } : {}),
    ...(checkpoint !== undefined && proof !== undefined
      ? {
          kept: {
            checkpoint: Buffer.from(bytesAt(checkpoint, 'a signed checkpoint')).toString('utf8'),
            ...readAs(ProofFile, proof, 'the answer to /api/ledger/<entry>/proof'),
          },
        }
      : {}),
  };
}

const ProofFile = z
  .object({ leaf: z.int().min(0), proof: z.array(z.string()) })
  .transform(({ leaf, proof }) => ({ leaf, proof }));

async function keysFrom(place: string, bytes: Uint8Array): Promise<KeyList> {
  if (!/^https?:/.test(place)) return readAs(KeyList, place, 'the public keys of a lab, as its service publishes them');
  const address = new URL(`/api/keys/${await labOf(bytes)}`, place);
  const answer = await fetch(address).catch((error: unknown) => {
    throw unanswered(address, (error as Error).message);
  });
  if (!answer.ok) throw unanswered(address, `status ${answer.status}`);
  return KeyList.parse(await answer.json());
}

function unanswered(address: URL, why: string): Refusal {
  return new Refusal({
    code: 'query.invalid',
    parameter: '--keys',
    detail: `No keys came from ${address.href}: ${why}.`,
    action: 'Give the address of the service of the lab that the document is of, or a file of its keys.',
  });
}

/** Which lab a document says it is of; whether that is so, its keys tell. */
async function labOf(bytes: Uint8Array): Promise<string> {
  try {
    return parseEntry(parseDocumentRecord(documentFiles(await attachedFiles(bytes)).record).entry).lab;
  } catch {
    throw new Refusal({
      code: 'file.type-mismatch',
      detail: 'The file does not say of which lab it is, so its keys cannot be asked for.',
      expected: 'a document signed by a lab',
    });
  }
}

function readAs<T>(form: z.ZodType<T>, file: string, expected: string): T {
  const read = form.safeParse(readJson(bytesAt(file, expected), file));
  if (read.success) return read.data;
  const [issue] = read.error.issues;
  const pointer = `/${(issue?.path ?? []).join('/')}`;
  throw new Refusal({
    code: 'body.format',
    file,
    pointer,
    detail: `${shown(file)}: ${pointer}: ${issue?.message ?? 'another form was found'}`,
    expected,
  });
}
