import type { DocumentContents } from './compose-document.js';
import { certificateOfTest } from './documents/certificate-of-test/index.js';
import { MESSAGES as CERTIFICATE } from './documents/certificate-of-test/messages.js';
import { comparisonReport } from './documents/comparison-report/index.js';
import { MESSAGES as COMPARISON } from './documents/comparison-report/messages/index.js';
import { composeLabels } from './documents/label-sheet/index.js';
import { MESSAGES as LABELS } from './documents/label-sheet/messages.js';
import { numberOf } from './documents/lot-test-report/head.js';
import { lotTestReport } from './documents/lot-test-report/index.js';
import { ROOMS } from './documents/one-page.js';
import { runSheet } from './documents/run-sheet/index.js';
import { MESSAGES as RUN_SHEET } from './documents/run-sheet/messages.js';
import { specimenRecord } from './documents/specimen-record/index.js';
import { MESSAGES as SPECIMEN } from './documents/specimen-record/messages.js';
import { composeSheet, pagesOf } from './parts/compose.js';
import type { DocumentData } from './parts/open-document.js';
import type { Paper } from './parts/paper.js';
import type { Printing } from './words/printing.js';

/** How a kind of document is named and laid out. */
interface Kind<Content> {
  title: (content: Content, printing: Printing) => string;
  /** Who issues and signs it. */
  issuer: (content: Content) => string;
  software: (content: Content) => string;
  compose: (content: Content, paper: Paper, printing: Printing, data: DocumentData) => Promise<Uint8Array>;
}

/** Every kind of document; a further one is a row. */
export const KINDS: { [Name in keyof DocumentContents]: Kind<DocumentContents[Name]> } = {
  'lot test report': {
    title: ({ identity }, printing) =>
      printing.say('Lot test report {number}', { number: numberOf(identity, printing) }),
    issuer: ({ bundle }) => bundle.lab.name,
    software: ({ lot }) => lot.software,
    compose: (content, paper, _printing, data) => composeSheet(lotTestReport(content), paper, data),
  },
  'run sheet': {
    title: ({ identity }, printing) => `${RUN_SHEET[printing.language].kind} ${numberOf(identity, printing)}`,
    issuer: ({ bundle }) => bundle.lab.name,
    software: ({ software }) => software,
    compose: (content, paper, printing, data) => {
      // The first that fits one page; where nothing does, a sheet of two pages loses less than one that is cut further.
      const sheets = ROOMS.map((room) => () => runSheet(content, printing, room));
      const fitting = sheets.find((sheet) => pagesOf(sheet(), paper, data) === 1) ?? sheets[0];
      if (!fitting) throw new Error('There is always some room.');
      return composeSheet(fitting(), paper, data);
    },
  },
  'specimen record': {
    title: ({ identity }, printing) => `${SPECIMEN[printing.language].kind} ${numberOf(identity, printing)}`,
    issuer: ({ lab }) => lab.name,
    software: ({ software }) => software,
    compose: (content, paper, printing, data) => composeSheet(specimenRecord(content, printing), paper, data),
  },
  'certificate of test': {
    title: ({ identity }, printing) => `${CERTIFICATE[printing.language].kind} ${numberOf(identity, printing)}`,
    issuer: ({ bundle }) => bundle.lab.name,
    software: ({ lot }) => lot.software,
    compose: (content, paper, printing, data) => composeSheet(certificateOfTest(content, printing), paper, data),
  },
  'comparison report': {
    title: ({ identity }, printing) => `${COMPARISON[printing.language].kind} ${numberOf(identity, printing)}`,
    issuer: ({ lab }) => lab.name,
    software: ({ software }) => software,
    compose: (content, paper, printing, data) => composeSheet(comparisonReport(content, printing), paper, data),
  },
  'label sheet': {
    title: ({ identity }, printing) => `${LABELS[printing.language].kind} ${numberOf(identity, printing)}`,
    issuer: ({ lab }) => lab,
    software: ({ software }) => software,
    compose: (content, _paper, printing, data) => composeLabels(content, printing, data),
  },
};
