import type { LotReportContent } from '../../content/lot-report-content.js';
import type { DocumentSheet } from '../../parts/blocks.js';
import { printingOf } from '../../words/printing.js';
import { sheetWords } from '../../words/sheet-words.js';
import { affairsSection } from './affairs.js';
import { notIncludedSection, reachSection, signatureSection } from './closing.js';
import { conditionsSection, deviationsSection, samplingSection, uncertaintySection } from './conduct.js';
import { digestsSection } from './digests.js';
import { equipmentSection } from './equipment.js';
import { headStrip, numberOf, stateOf } from './head.js';
import { limitsSection } from './limits.js';
import { opinionsSections } from './opinions.js';
import { recordSection } from './record.js';
import { resultsSection } from './results.js';
import { risksSection } from './risks.js';
import { runsSection } from './runs.js';
import { specimensSection } from './specimens.js';
import { spreadSection } from './spread.js';
import { whatTheLotHolds } from './what-the-lot-holds.js';

/** A lot test report in reading order: the answer, what it is set against, what was seen, how, and who stands behind it. */
export function lotTestReport(content: LotReportContent): DocumentSheet {
  const { identity } = content;
  const printing = printingOf(content);
  const { say } = printing;
  return {
    words: sheetWords(printing),
    head: headStrip(content),
    sections: [
      whatTheLotHolds,
      limitsSection,
      risksSection,
      specimensSection,
      resultsSection,
      runsSection,
      affairsSection,
      opinionsSections,
      spreadSection,
      recordSection,
      equipmentSection,
      samplingSection,
      conditionsSection,
      deviationsSection,
      uncertaintySection,
      notIncludedSection,
      digestsSection,
      reachSection,
      signatureSection,
    ].flatMap((section) => section(content)),
    foot: {
      identity: say('Lot test report {number}, {state}', {
        number: numberOf(identity, printing),
        state: stateOf(identity, printing).state,
      }),
      notice: say('reproduce only in full'),
    },
    endMark: say('End of report {number}', { number: numberOf(identity, printing) }),
  };
}
