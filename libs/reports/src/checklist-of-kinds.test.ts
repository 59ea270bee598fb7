import { beforeAll, describe, expect, it } from 'vitest';
import { needs, told } from '../../../tests/tools.js';
import { composeDocument, type DocumentContents } from './compose-document.js';
import { inventedDocuments } from './fixtures/invented-documents.js';

const plain = (text: string) => text.replace(/[\u00a0\u202f]/g, ' ').replace(/\s+/g, ' ');

/** Where a row of the checklist is found in a document, or why it does not concern it. */
type Row = RegExp | { not: string };
type Kind = Exclude<keyof DocumentContents, 'lot test report'>;

const IN_REPORT = { not: 'it points to the lot test report, which tells it' };
const LABEL = { not: 'a label is no report: it names a specimen and warns' };
const ONE_RUN = { not: 'it is about one run and speaks of no population' };
const IN_RUN_SHEETS = {
  not: 'equipment of each run stands on its run sheet and in the lot test report, which it names',
};
const NO_TEST = { not: 'it tells the life of a specimen; results and verdicts stand on run sheets and in the report' };

/**
 * The rows of `checklist.test.ts`, by kind of document: what ISO/IEC 17025:2017 asks a report to carry (7.8.2.1 and 7.8.6 as
 * published, the others from memory) and what auditors ask for beside it (common practice, no source).
 */
const CHECKLIST: Record<string, Record<Kind, Row>> = {
  'R01: the title names the kind': {
    'run sheet': /Run sheet Run 161: specimen 401/,
    'specimen record': /Specimen record Specimen 401/,
    'certificate of test': /Certificate of test Dunlin 42/,
    'label sheet': LABEL,
    'comparison report': /Comparison report Rims bought at the market of Fenbridge: Dunlin 42/,
  },
  'R02: lab, address and place': {
    'run sheet': /Saltmarsh Wheelworks test lab.*Old Sluice Yard 3.*Location of the test Test House, bay 1/,
    'specimen record': /Saltmarsh Wheelworks test lab.*Old Sluice Yard 3/,
    'certificate of test': /Saltmarsh Wheelworks test lab.*Old Sluice Yard 3.*Location of the tests Test House, bay 1/,
    'label sheet': /Saltmarsh Wheelworks test lab/,
    'comparison report':
      /Saltmarsh Wheelworks test lab.*Old Sluice Yard 3.*Location of the examination Test House, Old Sluice Yard 3/,
  },
  'R03: number and revision, page x of y': {
    'run sheet': /Run sheet RS-161 rev\. 1.*page 1 of 1/,
    'specimen record': /Specimen record SR-401 rev\. 1.*page 1 of \d/,
    'certificate of test': /Certificate of test CT-2407-1 rev\. 1, in force.*page 1 of \d/,
    'label sheet': { not: 'each label is cut from its sheet' },
    'comparison report': /Comparison report CR-42-1 rev\. 1.*page 1 of \d+/,
  },
  'R04: end mark': {
    'run sheet': /End of run sheet RS-161 rev\. 1/,
    'specimen record': /End of specimen record SR-401 rev\. 1/,
    'certificate of test': /End of certificate CT-2407-1 rev\. 1/,
    'label sheet': LABEL,
    'comparison report': /End of comparison report CR-42-1 rev\. 1/,
  },
  'R05: customer and contact': {
    'run sheet': /Customer, contact Saltmarsh Wheelworks, design office; Ingrid Sørbø/,
    'specimen record': /Customer, contact Saltmarsh Wheelworks, design office; Ingrid Sørbø/,
    'certificate of test': /Customer, contact Saltmarsh Wheelworks, design office; Ingrid Sørbø/,
    'label sheet': LABEL,
    'comparison report': /Customer, contact Saltmarsh Wheelworks, design office; Ingrid Sørbø/,
  },
  'R06: method, revision, basis': {
    'run sheet': /Method BURST rev\. 3: Burst pressure of a rim in bead clamps \(The lab's own procedure, issue 3\)/,
    'specimen record': /BURST rev\. 3/,
    'certificate of test':
      /Method BURST rev\. 3: Burst pressure of a rim in bead clamps \(The lab's own procedure, issue 3\)/,
    'label sheet': LABEL,
    'comparison report':
      /Methods BURST rev\. 3: Burst pressure of a rim in bead clamps \(The lab's own procedure, issue 3\)/,
  },
  'R07: specimen, serial, model, build': {
    'run sheet': /Specimen 401, serial D42-PP1-401.*Build † laid up by operator 31; mould M3/,
    'specimen record': /Serial D42-PP1-401.*Build † laid up by operator 31; mould M3/,
    'certificate of test': /Product † Dunlin 42 \(dunlin-42\).*Specimens received 12 specimens/,
    'label sheet': /Specimen 401 lot D42-PP1, D42-PP1-401 Dunlin 42/,
    'comparison report':
      /X-1 MARKET-1 no serial: the serial was ground off suspect.*X-2 MARKET-1 D42-24-901 suspect.*501 \(D42-24-501\), 502/,
  },
  'R08: condition at receipt': {
    'run sheet': /Condition at receipt as delivered, no mark or damage seen/,
    'specimen record': /Condition at receipt as delivered, no mark or damage seen/,
    'certificate of test': IN_REPORT,
    'label sheet': LABEL,
    'comparison report': /as new, label at an angle.*as new, in its own box/,
  },
  'R09: dates received and sampled': {
    'run sheet': /Specimen received, drawn 2031-02-04; 2031-02-03/,
    'specimen record': /Drawn 2031-02-03, Cem Aydın.*Received 2031-02-04/,
    'certificate of test':
      /Specimens received 12 specimens, 2031-02-04 Sampling random numbers over the lot list; by Cem Aydın, 2031-02-03/,
    'label sheet': LABEL,
    'comparison report': /Items, received X-1, X-2; 2031-02-03/,
  },
  'R10: dates of test': {
    'run sheet': /Tested 2031-02-05 09:00/,
    'specimen record': /2031-02-05 09:00 R1, Ben Okonkwo/,
    'certificate of test': /Tested 2031-02-05, by Ben Okonkwo/,
    'label sheet': LABEL,
    'comparison report': /Examined and tested 2031-02-06 to 2031-02-10/,
  },
  'R11: date of issue': {
    'run sheet': /Issued; replaces 2031-02-20 10:30/,
    'specimen record': /Issued; replaces 2031-02-20 10:30/,
    'certificate of test': /Issued; Replaces 2031-02-20 10:30/,
    'label sheet': LABEL,
    'comparison report': /Issued; replaces 2031-02-20 10:30/,
  },
  'R12: sampling rule, who drew, lot size': {
    'run sheet': /random numbers over the lot list, Cem Aydın/,
    'specimen record': /random numbers over the lot list, finished-goods store, rack 4/,
    'certificate of test': /Lot D42-PP1 of 60 units.*random numbers over the lot list; by Cem Aydın/,
    'label sheet': LABEL,
    'comparison report':
      /How the units were chosen Four of each lot by random numbers over the lot list.*Items as received: the lab drew none of them/,
  },
  'R13: only the items tested': {
    'run sheet': /results concern only the item tested/,
    'specimen record': /concerns this specimen only/,
    'certificate of test': /Results concern only the items tested/,
    'label sheet': LABEL,
    'comparison report': /Results concern only the items tested and examined/,
  },
  'R14: results with units, gauge or absolute': {
    'run sheet': /Burst pressure \(gauge\) 1 \d{3} kPa \d{3}\.\d psi/,
    'specimen record': /Burst pressure \(gauge\) run 161 1 \d{3} kPa \d{3}\.\d psi/,
    'certificate of test': /1 \d{3} kPa \d{3}\.\d psi; gauge/,
    'label sheet': LABEL,
    'comparison report': /Value \(gauge\).*X-1 MARKET-1 9001 1 288 kPa 186\.9 psi/,
  },
  'R15: deviations': {
    'run sheet': /Deviations from the method Water at 17 °C for the first minute/,
    'specimen record': NO_TEST,
    'certificate of test': /Deviations from the method: in 1 run, told in report LTR-2407-1 rev\. 1/,
    'label sheet': LABEL,
    'comparison report': /Deviations from the method 9001: Water at 17 °C for the first minute/,
  },
  'R16: who authorised, or that nobody has': {
    'run sheet': /Authorised for release not signed/,
    'specimen record': /Authorised for release not signed/,
    'certificate of test': /Authorised for release not signed/,
    'label sheet': LABEL,
    'comparison report': /Prepared.*Reviewed.*Authorised for release.*not signed/,
  },
  'R17: results from outside providers': {
    'run sheet': /‡ results from outside providers: none where none is marked/,
    'specimen record': /Results given by others none/,
    'certificate of test': /Outside results; opinions none; none/,
    'label sheet': LABEL,
    'comparison report':
      /9 plies, 0\/45\/-45 ‡.*an outside provider ‡ ‡ Ply count and order at the flange \(Fenbridge Materials Laboratory\): 501 to 512, X-1, X-2/,
  },
  'R18: reproduction in full': {
    'run sheet': /reproduce only in full/,
    'specimen record': /reproduce only in full/,
    'certificate of test': /reproduce only in full/,
    'label sheet': LABEL,
    'comparison report': /reproduce only in full/,
  },
  'R19: data of the customer are marked': {
    'run sheet': /Build †.*† stated by the customer/,
    'specimen record': /Product †.*† stated by the customer/,
    'certificate of test': /Product †.*† stated by the customer/,
    'label sheet': LABEL,
    'comparison report': /Product compared with †.*† stated by the customer, who answers for it/,
  },
  'R20: conditions': {
    'run sheet': /Conditions medium water; room temperature 22 °C/,
    'specimen record': NO_TEST,
    'certificate of test': /Conditions medium water; room temperature 22 to 22\.9 °C/,
    'label sheet': LABEL,
    'comparison report':
      /Conditions, equipment with its calibrations, and the record of each run stand on its run sheet/,
  },
  'R21: uncertainty, k, coverage': {
    'run sheet': /14 kPa k = 2; 2\.0 psi.*with k = 2 about 95 %/,
    'specimen record': /14 kPa k = 2; 2\.0 psi.*with k = 2 about 95 %/,
    'certificate of test': /U = 14 kPa, k = 2.*with k = 2 about 95 %/,
    'label sheet': LABEL,
    'comparison report': /14 kPa k = 2.*U covers one measurement, with k = 2 about 95 %/,
  },
  'R22: limit: value, source, edition, revision, in force': {
    'run sheet':
      /OCF-B1 rev\. 2: Rim strength under pressure.*Technical Rules, part W, 7\.2\. 4th edition; in force from 2030-01-01 at least 1 500 kPa \(217\.6 psi\)/,
    'specimen record': NO_TEST,
    'certificate of test':
      /OCF-B1 rev\. 2: Rim strength under pressure.*Technical Rules, part W, 7\.2\. 4th edition; in force from 2030-01-01 at least 1 500 kPa, 217\.6 psi/,
    'label sheet': LABEL,
    'comparison report': /Limits and decision rules drawn only, nothing is held to them: OCF-B1 rev\. 2; SW-F3 rev\. 2/,
  },
  'R23: decision rule in words and formula': {
    'run sheet': /accepted when the result minus U is at or above the limit: y ≥ TL \+ U/,
    'specimen record': NO_TEST,
    'certificate of test': /accepted when the result minus U is at or above the limit: y ≥ TL \+ U/,
    'label sheet': LABEL,
    'comparison report':
      /prediction bounds for each item, below; normal; lots may differ.*Correction for several Holm's|Correction for several Holm's.*prediction bounds for each item, below; normal; lots may differ/,
  },
  'R24: which result a statement covers': {
    'run sheet': /A verdict is on the result and the limit \(TL\) of its row/,
    'specimen record': NO_TEST,
    'certificate of test': /A verdict covers the results and the limit \(TL\) of its row/,
    'label sheet': LABEL,
    'comparison report': /Item by item Item Level Finding X-1 B: not consistent, measured Burst pressure of item X-1/,
  },
  'R25: verdict from the unrounded value': {
    'run sheet': /from unrounded values/,
    'specimen record': NO_TEST,
    'certificate of test': /from unrounded values/,
    'label sheet': LABEL,
    'comparison report': /Findings are from unrounded values/,
  },
  'R26: every run, also invalid ones, with reason and count': {
    'run sheet': ONE_RUN,
    'specimen record': /161 A BURST rev\. 3.*valid Ada Lindqvist/,
    'certificate of test':
      /12 runs recorded, 9 planned, 8 in the claim\. Valid 8 \(161 to 168\);.*invalid 1 \(170: rig fault\); file refused 1 \(171\)/,
    'label sheet': LABEL,
    'comparison report':
      /14 runs of items and reference, 14 of them valid\. Only valid ones give values; every run is listed/,
  },
  'R27: known from one side, failure mode': {
    'run sheet':
      /BF-FLG \(bead flange broke\) came first.*something broke; BF-FLG \(bead flange broke\), 120° from the valve/,
    'specimen record': /something broke BF-FLG \(120° from the valve, left side\); part not sound/,
    'certificate of test': IN_REPORT,
    'label sheet': LABEL,
    'comparison report': /Failure modes Failure mode Reference Items BF-BED 0 1 BF-FLG 12 1/,
  },
  'R28: statistics: n, failures, confidence': {
    'run sheet': ONE_RUN,
    'specimen record': NO_TEST,
    'certificate of test':
      /At least 90 % of the process holds at least 1 500 kPa \(OCF-B1 rev\. 2\), with 95 % confidence/,
    'label sheet': LABEL,
    'comparison report':
      /Reference values, lots 12 of 3 lots.*Level it is held to, corrected.*Lower bound 1 \d{3} kPa.*\d\d\.\d+ %.*Smallest difference found with 90 %/,
  },
  'R29: equipment, calibration valid on the day': {
    'run sheet': /Rim pressure P-1, serial 40-2219.*SWL-30-140.*2030-05-18, 2031-05-18 0\.1 bar \(k = 2\) yes/,
    'specimen record': NO_TEST,
    'certificate of test': IN_REPORT,
    'label sheet': LABEL,
    'comparison report': IN_RUN_SHEETS,
  },
  'R30: record with marked moments': {
    'run sheet':
      /Record of run 161, specimen 401, read by BURST rev\. 3 with breakbook.*Marked: 10 % of the peak, 90 % of the peak, peak/,
    'specimen record': NO_TEST,
    'certificate of test': IN_REPORT,
    'label sheet': LABEL,
    'comparison report':
      /Burst pressure\. Reference: 12 values of 3 lots\. Items: 2\. From runs by BURST rev\. 3: Burst pressure\./,
  },
  'R31: digests of raw files': {
    'run sheet': /Raw file runs\/run-161\.csv, 282 878 bytes, SHA-256 0{61}161/,
    'specimen record': /161 runs\/run-161\.csv 0{61}161/,
    'certificate of test': IN_REPORT,
    'label sheet': LABEL,
    'comparison report': /9001 runs\/run-9001\.csv 0{60}9001/,
  },
  'R32: opinions': {
    'run sheet': /Opinions and interpretations: none/,
    'specimen record': /Opinions and interpretations none/,
    'certificate of test': /opinions none; none/,
    'label sheet': LABEL,
    'comparison report': /Opinions and interpretations none/,
  },
  'R33: what it replaces': {
    'run sheet': /none: first issue/,
    'specimen record': /none: first issue/,
    'certificate of test': /none: first issue/,
    'label sheet': LABEL,
    'comparison report': /none: first issue/,
  },
  'R34: status as printed': {
    'run sheet':
      /As printed on 2031-02-20 10:30 \(Europe\/Copenhagen\); ask the lab whether a later revision replaces it/,
    'specimen record': /As printed on 2031-02-20 10:30 \(Europe\/Copenhagen\)/,
    'certificate of test':
      /Ask for its status: .*https:\/\/lab\.example\/status\/CT-2407-1\. As printed on 2031-02-20 10:30: in force/,
    'label sheet': LABEL,
    'comparison report':
      /As printed on 2031-02-20 10:30 \(Europe\/Copenhagen\); ask the lab whether a later revision replaces it/,
  },
  'R35: nonconformities and concessions': {
    'run sheet': /nonconformities and concessions: see the lot test report/,
    'specimen record': /Nonconformities that name it none/,
    'certificate of test':
      /Open nonconformities none Concessions and deviation permits none Open product-safety flags none/,
    'label sheet': LABEL,
    'comparison report': /Nonconformities that name an item none Concessions none/,
  },
  'R36: what it is not': {
    'run sheet': /no licence and no advice to ride/,
    'specimen record': /no licence and no advice to ride/,
    'certificate of test': /no licence and no advice to ride/,
    'label sheet': /Broken on purpose: do not ride/,
    'comparison report':
      /no licence and no advice to ride.*This does not show common origin|This does not show common origin.*no licence and no advice to ride/,
  },
  'R37: tester and reviewer by name': {
    'run sheet': /Tested by Ben Okonkwo Validity decided by Ada Lindqvist/,
    'specimen record': /Ben Okonkwo.*valid Ada Lindqvist/,
    'certificate of test': /by Ben Okonkwo; validity of the runs decided by Ada Lindqvist/,
    'label sheet': LABEL,
    'comparison report': /Ben Okonkwo valid Ada Lindqvist/,
  },
  'R38: photographs': {
    'run sheet': /Photographs none/,
    'specimen record':
      /break-401\.jpg The break of the left flange, scale in the picture the break; run 161 Ben Okonkwo 2031-02-05 09:12; bench camera 2/,
    'certificate of test': IN_REPORT,
    'label sheet': LABEL,
    'comparison report': /label-x-1\.jpg The label of X-1, scale in the picture Cem Aydın, 2031-02-06 10:10 c{30,}/,
  },
};

const KINDS: readonly Kind[] = [
  'run sheet',
  'specimen record',
  'certificate of test',
  'label sheet',
  'comparison report',
];

needs('pdftotext')('every row of the checklist', () => {
  const texts = new Map<Kind, string>();
  beforeAll(async () => {
    const documents = inventedDocuments({ specimens: 8, mixed: true });
    const usual = inventedDocuments({ specimens: 8 });
    for (const kind of KINDS) {
      // A run sheet with everything uncut, as it is where its texts are of usual length.
      const bytes = await composeDocument(kind, (kind === 'run sheet' ? usual : documents)[kind]);
      texts.set(kind, plain(told('pdftotext', bytes, (file) => ['-raw', file, '-'])));
    }
  });

  describe.each(KINDS)('on the %s', (kind) => {
    const rows = Object.entries(CHECKLIST).map(([row, kinds]) => [row, kinds[kind]] as const);
    it.each(rows.filter(([, found]) => found instanceof RegExp))('%s', (_, found) => {
      expect(texts.get(kind)).toMatch(found as RegExp);
    });

    it('has a reason for each row that does not concern it', () => {
      for (const [row, found] of rows)
        if (!(found instanceof RegExp)) expect(found.not.length, row).toBeGreaterThan(20);
    });

    it('makes no claim of accreditation or approval that is not held (R40)', () => {
      expect(texts.get(kind)).not.toMatch(/is accredited|accredited by|certified safe|unbreakable/i);
    });
  });
});
