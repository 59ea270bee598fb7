import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { evaluateLot } from '@breakbook/acceptance';
import { sha256 } from '@breakbook/evidence';
import {
  attachedJson,
  type CertificateContent,
  certificateContent,
  composeDocument,
  type DocumentContents,
  type LotReportContent,
  labelSheetContent,
  lotReportContent,
  type RunSheetContent,
  recomputeDocument,
  recomputeSignedFile,
  runSheetContent,
  type SpecimenRecordContent,
  specimenRecordContent,
} from '@breakbook/reports';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openLotFolder } from '../../apps/cli/src/lot-folder.ts';
import { breakbook, breakbookProcess } from '../breakbook.ts';
import { type SealingLab, sealingLab } from '../signing-keys.ts';
import { needs } from '../tools.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const LOT = 'sample-runs/dunlin-42-second-lot';
const place = fs.mkdtempSync(path.join(os.tmpdir(), 'breakbook-offline-'));
const at = (name: string) => path.join(place, name);
afterAll(() => fs.rmSync(place, { recursive: true }));

type FileOf = 'data alone' | 'raw files';

needs('openssl')('a signed report, five years later, with nothing but its file', () => {
  let lab: SealingLab;
  let content: LotReportContent;
  let certificate: CertificateContent;
  let runSheet: RunSheetContent;
  let specimenRecord: SpecimenRecordContent;
  const sealed = (one: DocumentContents[keyof DocumentContents]) =>
    lab.seal(attachedJson(one), (sealing) => composeDocument(one.document, one, { paper: 'A4', sealing }));
  beforeAll(async () => {
    lab = await sealingLab();
    const { bundle, filesOf } = openLotFolder(path.join(root, LOT));
    const evaluation = evaluateLot(bundle, filesOf);
    content = lotReportContent({
      bundle,
      evaluation,
      document: { number: 'LTR-OFF-1', revision: 1, issuedAt: '2031-02-20T09:30:00.000Z', signatures: [] },
    });
    certificate = certificateContent({
      report: content,
      disposition: {
        number: 1,
        lot: bundle.lot.lot,
        evaluation: 1,
        outcome: 'accepted',
        state: 'in force',
        reason: 'as the sheet says',
        deciders: 1,
        signatures: [],
      },
      document: { number: 'CT-OFF-1', revision: 1, issuedAt: '2031-02-21T09:30:00.000Z', signatures: [] },
    });
    fs.writeFileSync(at('report.pdf'), await sealed(content));
    fs.writeFileSync(at('certificate.pdf'), await sealed(certificate));
    const { run, specimen } = first(bundle.runs);
    const numbered = (number: string) => ({ ...certificate.identity, number });
    runSheet = runSheetContent({ bundle, evaluation, run, document: numbered('RS-OFF-1') });
    specimenRecord = specimenRecordContent({
      bundle,
      evaluation,
      specimen,
      document: numbered('SR-OFF-1'),
      state: 'destroyed',
      states: [],
      photos: [],
      legalHolds: [],
      nonconformities: [],
    });
    fs.writeFileSync(at('run-sheet.pdf'), await sealed(runSheet));
    fs.writeFileSync(at('specimen-record.pdf'), await sealed(specimenRecord));
    const { lab: by, lot, product, specimens } = bundle;
    const document = { ...certificate.identity, number: 'LS-OFF-1' };
    const labels = { lab: by, lot, product, specimens, grid: 'A4, 24 of 70 × 37 mm', document } as const;
    fs.writeFileSync(at('labels.pdf'), await sealed(labelSheetContent(labels)));
    fs.writeFileSync(at('keys.json'), JSON.stringify(lab.keys));
  }, 120_000);

  it('is verified: a line for each question, as text and as JSON', async () => {
    const { status, stdout } = await breakbook('verify', at('report.pdf'), '--keys', at('keys.json'));
    expect(status, stdout).toBe(0);
    expect(stdout).toContain('it is the document that the lab signed');
    expect(stdout.match(/\? yes/g)).toHaveLength(5);
    const json = JSON.parse((await breakbook('verify', at('report.pdf'), '--keys', at('keys.json'), '--json')).stdout);
    expect(json).toMatchObject([{ outcome: 'holds', findings: Array.from({ length: 5 }, () => ({ holds: true })) }]);
  });

  it('is left open without keys, refused altered, and what is no such file is said', async () => {
    expect((await breakbook('verify', at('report.pdf'))).status).toBe(3);
    const altered = fs.readFileSync(at('report.pdf'));
    altered[altered.length >> 1] = (altered[altered.length >> 1] ?? 0) ^ 1;
    fs.writeFileSync(at('altered.pdf'), altered);
    const refused = await breakbook('verify', at('altered.pdf'), '--keys', at('keys.json'));
    expect(refused).toMatchObject({ status: 1, stdout: expect.stringContaining('it is NOT the document') });
    expect((await breakbook('recompute', at('altered.pdf'))).status).toBe(1);
    expect(await breakbook('verify', at('keys.json'))).toMatchObject({
      status: 2,
      stderr: expect.stringContaining('is no PDF'),
    });
    expect((await breakbook('verify', at('none.pdf'))).status).toBe(2);
    expect((await breakbook('verify', at('report.pdf'), '--keys', at('report.pdf'))).status).toBe(2);
    expect((await breakbook('verify', at('report.pdf'), '--checkpoint', at('keys.json'))).status).toBe(2);
  });

  it('gives every number again from its data and the raw files, and its pages to the byte', async () => {
    // In a process of its own: pages laid out where others were before must be those laid out first.
    const { status, stdout } = breakbookProcess(['recompute', at('report.pdf'), '--files', LOT]);
    expect(status, stdout).toBe(0);
    expect(stdout).toMatch(/\d{3,} numbers: each identical to the last bit/);
    expect(stdout).toContain('The raw files were read again.');
    expect(stdout).toContain('to the byte');
    const withoutFiles = await breakbook('recompute', at('report.pdf'));
    expect(withoutFiles).toMatchObject({ status: 0, stdout: expect.stringContaining('are not at hand') });
  });

  it('does the same of every other kind', async () => {
    const { status, stdout } = await breakbook('recompute', at('certificate.pdf'), '--files', LOT);
    expect(status, stdout).toBe(0);
    expect(stdout).toContain('CT-OFF-1 rev. 1');
    expect(stdout).toMatch(/\d{3,} numbers: each identical to the last bit/);
    expect(stdout).toContain('The raw files were read again.');
    expect(stdout).toContain('to the byte');
    const numbers = async (name: string) =>
      JSON.parse((await breakbook('recompute', at(name), '--json')).stdout).numbers;
    expect(await numbers('certificate.pdf')).toBe(await numbers('report.pdf'));
    const { filesOf } = openLotFolder(path.join(root, LOT));
    const files = content.bundle.runs.flatMap(({ run }) =>
      filesOf(run).map(({ bytes }) => [sha256(bytes), bytes] as const),
    );
    const byDigest = new Map(files);
    for (const name of ['run-sheet.pdf', 'specimen-record.pdf'])
      for (const kept of [byDigest, new Map<string, Uint8Array>()])
        expect(await recomputeSignedFile(fs.readFileSync(at(name)), (digest) => kept.get(digest)), name).toMatchObject({
          found: { numbers: expect.any(Number), filesRead: kept.size > 0, differences: [], pagesAlike: true },
        });
    const labels = await breakbook('recompute', at('labels.pdf'));
    expect(labels).toMatchObject({ status: 0, stdout: expect.stringContaining('It has no numbers of a test.') });
    expect(labels.stdout).toContain('to the byte');
  });

  it('says of a specimen record of before the records were attached that it cannot', async () => {
    const { records: _, ...old } = specimenRecord;
    expect(await recomputeSignedFile(await sealed(old), () => undefined)).toEqual({ notRecomputed: 'specimen record' });
  });

  it.each<[string, (sheet: RunSheetContent) => void, FileOf]>([
    ['a margin', ({ judgement }) => nudge(first(judgement?.verdicts ?? []), 'margin'), 'data alone'],
    ['a value in the claim', ({ entry }) => nudge(entry?.result?.value ?? {}, 'value'), 'data alone'],
    ['a result', ({ judgement }) => nudge(first(judgement?.results ?? []).value, 'value'), 'data alone'],
    ['a verdict left out', ({ judgement }) => void judgement?.verdicts.pop(), 'data alone'],
    ['a value read', ({ reading }) => nudge(first(reading?.characteristics ?? []).value, 'value'), 'raw files'],
    ['a point of the record', ({ trace }) => nudge(first(trace?.channels ?? []).values, '9'), 'raw files'],
  ])('finds %s of a run sheet altered before it was signed', async (_, alter, from) => {
    const altered = JSON.parse(attachedJson(runSheet)) as RunSheetContent;
    alter(altered);
    const { filesOf } = openLotFolder(path.join(root, LOT));
    expect((await recomputeDocument({ content: runSheet, filesOf })).differences).toEqual([]);
    const { differences } = await recomputeDocument({ content: altered, ...(from === 'raw files' ? { filesOf } : {}) });
    expect(differences.length).toBeGreaterThan(0);
  });

  it('finds a result of a specimen record altered before it was signed', async () => {
    // As it is attached: nothing stands for two things at once.
    const altered = JSON.parse(attachedJson(specimenRecord)) as SpecimenRecordContent;
    nudge(altered.runs.flatMap(({ results }) => results).find(({ value }) => 'value' in value)?.value ?? {}, 'value');
    const content = altered as typeof altered & Required<Pick<typeof altered, 'records'>>;
    expect((await recomputeDocument({ content })).differences.length).toBeGreaterThan(0);
  });

  it('finds a certificate whose numbers are not those of its runs, however well it is signed', async () => {
    const altered = structuredClone(certificate);
    nudge(first(first(altered.judgements).verdicts), 'margin');
    fs.writeFileSync(at('altered-certificate.pdf'), await sealed(altered));
    expect((await breakbook('verify', at('altered-certificate.pdf'), '--keys', at('keys.json'))).status).toBe(0);
    const { status, stdout } = await breakbook('recompute', at('altered-certificate.pdf'));
    expect(status).toBe(1);
    expect(stdout).toMatch(/1 places? differ.*margin/s);
  });

  // Each is signed as good as any other: only working it out again shows it.
  it.each<[string, (content: LotReportContent) => void]>([
    ['the last bit of a verdict’s margin', ({ judgements }) => nudge(first(first(judgements).verdicts), 'margin')],
    [
      'a verdict',
      ({ judgements }) => Object.assign(first(first(judgements).verdicts), { verdict: 'does not conform' }),
    ],
    ['a verdict left out', ({ judgements }) => void first(judgements).verdicts.pop()],
    ['the outcome of the lot', ({ lot }) => Object.assign(lot, { outcome: 'undecided' })],
    ['the sentence about the lot', ({ lot }) => Object.assign(lot, { sentence: 'All is well.' })],
    [
      'what a criterion came to',
      ({ lot }) => Object.assign(first(first(lot.lines).criteria), { outcome: 'not evaluated' }),
    ],
    ['a run judged that is none', ({ judgements }) => Object.assign(first(judgements), { run: 'x' })],
  ])('finds %s altered before it was signed', async (_, alter) => {
    const altered = structuredClone(content);
    alter(altered);
    expect(attachedJson(altered)).not.toBe(attachedJson(content));
    expect((await recomputeDocument({ content: altered })).differences.length).toBeGreaterThan(0);
  });

  it('finds a value altered that only the raw files tell', async () => {
    const altered = structuredClone(content);
    nudge(first(first(altered.readings).characteristics).value, 'value');
    const { filesOf } = openLotFolder(path.join(root, LOT));
    const { differences } = await recomputeDocument({ content: altered, filesOf });
    expect(differences.map(({ place: where }) => where).join('\n')).toMatch(/readings .* value/);
  });
});

function first<T>(list: readonly T[]): T {
  const [one] = list;
  if (one === undefined) throw new Error('the list is empty');
  return one;
}

/** The next double above a positive number, in place of it. */
function nudge(thing: object, name: string): void {
  const was = (thing as Record<string, unknown>)[name];
  if (typeof was !== 'number') throw new Error(`${name} is no number: ${JSON.stringify(was)}`);
  Object.assign(thing, { [name]: was + 2 ** (Math.floor(Math.log2(Math.abs(was))) - 52) });
}
