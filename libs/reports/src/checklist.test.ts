import { beforeAll, expect, it } from 'vitest';
import { needs, told } from '../../../tests/tools.js';
import { composeDocument } from './compose-document.js';
import { inventedContent } from './fixtures/invented-lot.js';

const plain = (text: string) => text.replace(/[\u00a0\u202f]/g, ' ').replace(/\s+/g, ' ');

/**
 * What ISO/IEC 17025:2017 asks a report to carry, by clause (7.8.2.1 and 7.8.6 as published, the others from memory),
 * and what auditors ask for beside it (common practice, no source). Each row is found in the text read back.
 */
const rows: [id: string, what: string, found: RegExp][] = [
  ['R01', 'the title names the kind of document (7.8.2.1 a)', /Lot test report Dunlin 42, lot D42-PP1/],
  [
    'R02',
    'lab, address and place of the tests (b, c)',
    /Saltmarsh Wheelworks test lab.*Old Sluice Yard 3.*Location of the tests Test House, bay 1/,
  ],
  ['R03', 'number and revision, page x of y (d)', /LTR-2407-1 rev\. 1, unsigned draft.*page 1 of \d+/],
  ['R04', 'end mark (d)', /End of report LTR-2407-1 rev\. 1/],
  ['R05', 'customer and contact (e)', /Customer Saltmarsh Wheelworks, design office.*Contact Ingrid Sørbø/],
  ['R06', 'method, revision, basis (f)', /Method BURST rev\. 3: Burst pressure of a rim in bead clamps/],
  [
    'R07',
    'specimen, serial or why none, model, build (g)',
    /401 D42-PP1-401.*no serial: label torn off in transit.*mould M3/,
  ],
  ['R08', 'condition at receipt (g)', /Condition at receipt.*as delivered, no mark or damage seen/],
  ['R09', 'dates received and sampled (h)', /Specimens received 2031-02-04.*Specimens drawn 2031-02-03/],
  ['R10', 'dates of test (i)', /Tested 2031-02-05/],
  ['R11', 'date of issue (j)', /Issued 2031-02-20 10:30 \(Europe\/Copenhagen\)/],
  [
    'R12',
    'sampling rule, who drew, lot size (k, 7.8.5)',
    /Rule random numbers over the lot list Drawn by, on Cem Aydın, 2031-02-03.*Lot size 60 units/,
  ],
  ['R13', 'only the items tested (l)', /Results concern only the items tested/],
  [
    'R14',
    'results with units, gauge or absolute (m)',
    /Burst pressure \(gauge\), plan line A.*1 \d{3} kPa \d{3}\.\d psi/,
  ],
  ['R15', 'deviations (n)', /What departs from the method\?.*Water at 17 °C for the first minute/],
  ['R16', 'who authorised, or that nobody has (o)', /Authorised for release.*not signed/],
  ['R17', 'results from outside providers (p)', /Results from outside providers none/],
  ['R18', 'reproduction in full (7.8.2.1, note)', /reproduce only in full/],
  [
    'R19',
    'data supplied by the customer are marked (7.8.2.2)',
    /Product †.*† stated by the customer; the lab did not measure it/,
  ],
  ['R20', 'conditions (7.8.3.1 a)', /medium water every run.*room temperature 22 to 22\.9 °C every run/],
  ['R21', 'uncertainty, k, coverage (7.8.3.1 c)', /14 kPa k = 2; 2\.0 psi.*with k = 2 it covers about 95 %/],
  [
    'R22',
    'limit: value, source, edition, revision, in force (7.8.6.2 b)',
    /OCF-B1 rev\. 2.*at least 1 500 kPa.*Technical Rules, part W, 7\.2\. 4th edition.*2030-01-01/,
  ],
  [
    'R23',
    'decision rule in words and formula (7.8.6.2 c)',
    /SW-F3 rev\. 2 guarded accepted when the result minus U is at or above the limit y ≥ TL \+ U/,
  ],
  [
    'R24',
    'which result a statement covers (7.8.6.2 a)',
    /A verdict covers the one result in its row and the one limit named above it/,
  ],
  [
    'R25',
    'verdict from the unrounded value (common practice)',
    /Every verdict is made from the unrounded result and the unrounded limit/,
  ],
  [
    'R26',
    'every run, also invalid ones, with reason and count (7.8.1.2)',
    /12 runs recorded, 9 planned\. Valid 10, valid with deviation 0, invalid 1.*rig fault.*file was refused/,
  ],
  [
    'R27',
    'known from one side, failure mode per specimen (common practice)',
    /at least 1 \d{3} kPa.*BT-OFF \(tyre came off, rim whole\) came first and the part was found sound/,
  ],
  [
    'R28',
    'statistics: n, failures, estimator, confidence, modes (common practice)',
    /Specimens in the claim.*Weibull shape, maximum likelihood.*Modes only the rim's own failures count|Modes only the rim's own failures count.*Specimens in the claim.*Weibull shape, maximum likelihood/,
  ],
  [
    'R29',
    'equipment, calibration valid on the day (6.4, 6.5)',
    /R1, rim pressure.*P-1, serial 40-2219.*SWL-30-140.*2030-05-18, 2031-05-18.*0\.1 bar \(k = 2\).*yes/,
  ],
  [
    'R30',
    'record with marked moments, method revision (7.5, 7.11)',
    /Record of run \d+, specimen \d+, read by BURST rev\. 3 with breakbook.*Marked: 10 % of the peak, 90 % of the peak, peak/,
  ],
  ['R31', 'digests of raw files (common practice)', /runs\/run-161\.csv 282 878 0{61}161/],
  ['R32', 'opinions, headed as such (7.8.7)', /Opinions and interpretations none/],
  ['R33', 'what it replaces (7.8.8)', /Replaces none: first issue/],
  [
    'R34',
    'status as printed (common practice)',
    /as printed on 2031-02-20 10:30; ask the lab whether a later revision replaces it/,
  ],
  [
    'R35',
    'nonconformities and concessions (7.10)',
    /Nonconformities affecting the items none recorded Concessions none recorded/,
  ],
  [
    'R36',
    'what it is not (common practice)',
    /no licence and no advice to ride, to race, or to exceed a marked pressure/,
  ],
  ['R37', 'tester and reviewer by name (6.2)', /Tested by Ben Okonkwo Validity of the runs decided by Ada Lindqvist/],
  ['R38', 'photographs (common practice)', /Photographs none with this report/],
  [
    'R40',
    'no accreditation or approval that is not held',
    /claims no accreditation of the lab and no approval by a governing body/,
  ],
];

needs('pdftotext')('the report of a mixed lot carries', () => {
  let text = '';
  beforeAll(async () => {
    const content = inventedContent({ specimens: 8, mixed: true });
    const bytes = await composeDocument('lot test report', content, { paper: 'A4' });
    // Raw: in the order in which it was written, which is the order of the tags.
    text = plain(told('pdftotext', bytes, (file) => ['-raw', file, '-']));
  });

  it.each(rows)('%s: %s', (_, __, found) => {
    expect(text).toMatch(found);
  });

  it('R32: each opinion in a box of its own, headed as such, with author, basis and what it rests on (7.8.7)', async () => {
    const opinion = {
      number: 4,
      version: 2,
      lot: 'D42-PP1',
      evaluation: 7,
      text: 'The breaks begin at the valve hole, which speaks for the drill and not for the laminate.',
      basis: 'Photographs of six breaks, and the drill log of the week.',
      spoken: { to: 'Ingrid Sørbø', on: '2031-02-19' },
      by: 'ada',
      name: 'Ada Lindqvist',
      role: 'head of test',
      at: '2031-02-19T09:00:00Z',
    };
    const long = { ...opinion, number: 5, text: 'A long thought. '.repeat(240) };
    const affairs = { nonconformities: [], concessions: [], retests: [], opinions: [opinion, long] };
    const content = { ...inventedContent({ specimens: 8, mixed: true }), affairs };
    const bytes = await composeDocument('lot test report', content, { paper: 'A4' });
    const printed = plain(told('pdftotext', bytes, (file) => ['-raw', file, '-']));
    expect(printed).toMatch(
      /Opinions and interpretations What stands in a box.*no result of a test\. Opinion 4, version 2, on lot D42-PP1 The breaks begin.* Basis: Photographs of six breaks.*Told by word of mouth to Ingrid Sørbø on 2031-02-19\. Given by Ada Lindqvist, head of test, 2031-02-19 10:00 \(Europe\/Copenhagen\), on the results of evaluation 7\..*Opinions and interpretations each in its box above/,
    );
    expect(printed.match(/thought\./g)).toHaveLength(240);
  });

  it('no word that claims more than the lab may give', () => {
    expect(text).not.toMatch(/accredited|certified safe|unbreakable|defective/i);
  });
});

needs('pdftotext')('a report that is not the usual one', () => {
  const read = async (content: ReturnType<typeof inventedContent>) =>
    plain(
      told('pdftotext', await composeDocument('lot test report', content, { paper: 'A4' }), (file) => [
        '-raw',
        file,
        '-',
      ]),
    );

  it('says what it replaces, what changed and why, on top (7.8.8)', async () => {
    const replaces = {
      number: 'LTR-2407-0',
      revision: 3,
      changed: 'the serial of specimen 402',
      because: 'it was misread',
    };
    const text = await read(inventedContent({ specimens: 3, identity: { replaces } }));
    expect(text).toContain(
      'Amendment. This report replaces LTR-2407-0 rev. 3. Changed: the serial of specimen 402. Reason: it was misread.',
    );
  });

  it('names its signers with role, time and meaning, and is then no draft', async () => {
    const signatures = [
      { meaning: 'prepared', name: 'Ben Okonkwo', role: 'Test engineer', at: '2031-02-19T14:00:00Z' },
      { meaning: 'authorised', name: 'Ada Lindqvist', role: 'Head of the lab', at: '2031-02-20T09:00:00Z' },
    ] as const;
    const text = await read(inventedContent({ specimens: 3, identity: { signatures: [...signatures] } }));
    expect(text).toMatch(
      /Authorised for release Ada Lindqvist Head of the lab 2031-02-20 10:00 \(Europe\/Copenhagen\)/,
    );
    expect(text).toContain('State: authorised.');
    expect(text).not.toContain('unsigned draft');
  });

  it('says "as received" where the lab did not draw the specimens (7.8.2.2)', async () => {
    const text = await read(inventedContent({ specimens: 3, sampled: false }));
    expect(text).toContain('The lab did not draw the specimens. Results apply to the sample as received.');
  });

  it('prints no bound and no fit on too few specimens, and says why', async () => {
    const text = await read(inventedContent({ specimens: 1 }));
    expect(text).toMatch(/not evaluated: not estimable from 1 specimen/);
    expect(text).toMatch(/Deviations?|What departs from the method/);
    expect(text).not.toMatch(/Lower bound: \d/);
  });
});
