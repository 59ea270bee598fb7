import type { Language } from '@breakbook/lab';

export interface Messages {
  kind: string;
  sentence: (given: { lot: string; size: number; plan: string; outcome: string; day: string }) => string;
  next: string;
  replaces: (given: { name: string; changed: string; because: string }) => string;
  facts: Record<
    | 'customer'
    | 'contact'
    | 'location'
    | 'product'
    | 'lot'
    | 'plan'
    | 'method'
    | 'specimens'
    | 'drawn'
    | 'conditions'
    | 'tested'
    | 'issued'
    | 'replaces',
    string
  >;
  lotMade: (given: { lot: string; kind: string; size: number; from: string; to: string }) => string;
  received: (count: string, days: string) => string;
  drawnBy: (given: { rule: string; by: string; on: string }) => string;
  asReceived: string;
  testedBy: (given: { days: string; by: string; reviewed: string }) => string;
  noneRecorded: string;
  firstIssue: string;
  approved: (name: string, day: string) => string;
  results: {
    heading: string;
    limit: string;
    asks: string;
    specimens: string;
    lowest: string;
    highest: string;
    verdict: string;
    inForce: (day: string) => string;
    conform: (conforming: number, all: number) => string;
    noValid: string;
    noUncertainty: string;
    gauge: Record<'gauge' | 'absolute', string>;
    note: string;
  };
  runs: {
    heading: string;
    counts: (given: { line: string; runs: number; planned: number; inClaim: number }) => string;
    list: (given: { word: string; count: number; runs: string }) => string;
    refused: string;
    outside: string;
    unjudged: string;
    none: string;
    to: string;
    deviations: (count: number, report: string) => string;
    noDeviations: string;
  };
  decision: {
    heading: string;
    disposition: string;
    dispositionOf: (number: number, outcome: string) => string;
    deciders: string;
    reason: string;
    restsOn: string;
    report: (name: string) => string;
    nonconformities: string;
    concessions: string;
    flags: string;
    outside: string;
    opinions: string;
    inReport: string;
    open: string;
    none: string;
    given: (marks: string) => string;
  };
  reach: { heading: string; items: (asReceived: boolean) => string[] };
  status: {
    title: string;
    ask: string;
    asPrinted: (given: { state: string; at: string }) => string;
    noUrl: string;
    alt: (url: string) => string;
  };
  signing: {
    nobody: string;
    meanings: Record<'prepared' | 'reviewed' | 'authorised', string>;
    notSigned: string;
  };
  notice: string;
  endMark: (name: string) => string;
}

export const MESSAGES: Record<Language, Messages> = {
  en: {
    kind: 'Certificate of test',
    sentence: ({ lot, size, plan, outcome, day }) =>
      `Lot ${lot} of ${size} units was tested to plan ${plan}; on ${day} it was decided: ${outcome}.`,
    next: 'ask the lab for its status before relying on it',
    replaces: ({ name, changed, because }) =>
      `Amendment. This certificate replaces ${name}. Changed: ${changed}. Reason: ${because}.`,
    facts: {
      customer: 'Customer',
      contact: 'contact',
      location: 'Location of the tests',
      product: 'Product †',
      lot: 'Lot †',
      plan: 'Plan',
      method: 'Method',
      specimens: 'Specimens received',
      drawn: 'Sampling',
      conditions: 'Conditions',
      tested: 'Tested',
      issued: 'Issued',
      replaces: 'Replaces',
    },
    lotMade: ({ lot, kind, size, from, to }) =>
      `${lot}, ${kind}, ${size} units, made ${from === to ? from : `${from} to ${to}`}`,
    received: (count, days) => `${count}, ${days}`,
    drawnBy: ({ rule, by, on }) => `${rule}; by ${by}, ${on}`,
    asReceived: 'not by the lab: results apply to the sample as received',
    testedBy: ({ days, by, reviewed }) => `${days}, by ${by}; validity of the runs decided by ${reviewed}`,
    noneRecorded: 'none recorded',
    firstIssue: 'none: first issue',
    approved: (name, day) => `${name}, approved ${day}`,
    results: {
      heading: 'To which limits was the lot tested, and with what result?',
      limit: 'Limit',
      asks: 'Asks for, decision rule',
      specimens: 'Valid results',
      lowest: 'Lowest result',
      highest: 'Highest result',
      verdict: 'Every valid result',
      inForce: (day) => `in force from ${day}`,
      conform: (conforming, all) => `${conforming} of ${all} conform`,
      noValid: 'no valid result',
      noUncertainty: 'no uncertainty stated',
      gauge: { gauge: 'gauge', absolute: 'absolute' },
      note: 'U covers one measurement, with k = 2 about 95 % for a normal distribution, and no scatter between specimens. A verdict covers the results and the limit (TL) of its row, from unrounded values. What each specimen showed, and the equipment, stand in the lot test report. † stated by the customer, not measured.',
    },
    runs: {
      heading: 'Which runs does this rest on?',
      counts: ({ line, runs, planned, inClaim }) =>
        `${line}: ${runs} ${runs === 1 ? 'run' : 'runs'} recorded, ${planned} planned, ${inClaim} in the claim.`,
      list: ({ word, count, runs }) => `${word} ${count}${runs === '' ? '' : ` (${runs})`}`,
      refused: 'file refused',
      outside: 'valid, outside the claim',
      unjudged: 'belongs to no line of the plan',
      none: 'none',
      to: 'to',
      deviations: (count, report) =>
        `Deviations from the method: in ${count} ${count === 1 ? 'run' : 'runs'}, told in report ${report}.`,
      noDeviations: 'Deviations from the method: none.',
    },
    decision: {
      heading: 'What was decided, and what stands open?',
      disposition: 'Disposition',
      dispositionOf: (number, outcome) => `${number}: ${outcome}`,
      deciders: 'Decided by',
      reason: 'Reason',
      restsOn: 'Rests on',
      report: (name) => `lot test report ${name}`,
      nonconformities: 'Open nonconformities',
      concessions: 'Concessions and deviation permits',
      flags: 'Open product-safety flags',
      outside: 'Outside results',
      opinions: 'opinions',
      inReport: 'in the lot test report',
      open: 'open',
      none: 'none',
      given: (marks) => `in the lot test report, marked ${marks}`,
    },
    reach: {
      heading: 'How far does it reach, and who stands behind it?',
      items: (asReceived) => [
        `Results concern only the items tested, in the condition received and under the conditions stated.${asReceived ? ' They apply to the sample as received.' : ''} Statistical bounds describe the population named with them, under the stated assumptions.`,
        'It is no licence and no advice to ride, to race, or to exceed a marked pressure; survival is not proof of unlimited strength, and a failure is not by itself proof of a defect.',
        'It is not an approval by a governing body, and claims no accreditation of the lab. People judged and decided; software computed. Tested parts are not used again.',
      ],
    },
    status: {
      title: 'Ask for its status',
      ask: 'whether it is still in force, on hold, superseded or withdrawn, the lab tells at',
      asPrinted: ({ state, at }) => `As printed on ${at}: ${state}.`,
      noUrl: 'Whether it is still in force, the lab tells whoever gives the number of this certificate.',
      alt: (url) => `QR code of the address ${url}`,
    },
    signing: {
      nobody: 'nobody yet',
      meanings: { prepared: 'Prepared', reviewed: 'Reviewed', authorised: 'Authorised for release' },
      notSigned: 'not signed',
    },
    notice: 'reproduce only in full',
    endMark: (name) => `End of certificate ${name}`,
  },
  de: {
    kind: 'Prüfzertifikat',
    sentence: ({ lot, size, plan, outcome, day }) =>
      `Los ${lot} mit ${size} Einheiten wurde nach Plan ${plan} geprüft; am ${day} wurde entschieden: ${outcome}.`,
    next: 'beim Labor nach dem Status fragen, bevor man sich darauf verlässt',
    replaces: ({ name, changed, because }) =>
      `Änderung. Dieses Zertifikat ersetzt ${name}. Geändert: ${changed}. Grund: ${because}.`,
    facts: {
      customer: 'Auftraggeber',
      contact: 'Ansprechperson',
      location: 'Ort der Prüfungen',
      product: 'Produkt †',
      lot: 'Los †',
      plan: 'Plan',
      method: 'Verfahren',
      specimens: 'Prüflinge eingegangen',
      drawn: 'Probenahme',
      conditions: 'Bedingungen',
      tested: 'Geprüft',
      issued: 'Ausgestellt',
      replaces: 'Ersetzt',
    },
    lotMade: ({ lot, kind, size, from, to }) =>
      `${lot}, ${kind}, ${size} Einheiten, gefertigt ${from === to ? from : `${from} bis ${to}`}`,
    received: (count, days) => `${count}, ${days}`,
    drawnBy: ({ rule, by, on }) => `${rule}; durch ${by}, ${on}`,
    asReceived: 'nicht durch das Labor: Ergebnisse gelten für die Probe wie erhalten',
    testedBy: ({ days, by, reviewed }) => `${days}, durch ${by}; Gültigkeit der Versuche entschieden durch ${reviewed}`,
    noneRecorded: 'keine aufgezeichnet',
    firstIssue: 'keines: erste Ausgabe',
    approved: (name, day) => `${name}, genehmigt ${day}`,
    results: {
      heading: 'Auf welche Grenzwerte wurde das Los geprüft, und mit welchem Ergebnis?',
      limit: 'Grenzwert',
      asks: 'Verlangt, Entscheidungsregel',
      specimens: 'Gültige Ergebnisse',
      lowest: 'Niedrigstes Ergebnis',
      highest: 'Höchstes Ergebnis',
      verdict: 'Jedes gültige Ergebnis',
      inForce: (day) => `in Kraft ab ${day}`,
      conform: (conforming, all) => `${conforming} von ${all} konform`,
      noValid: 'kein gültiges Ergebnis',
      noUncertainty: 'keine Unsicherheit angegeben',
      gauge: { gauge: 'Überdruck', absolute: 'absolut' },
      note: 'U gilt für eine Messung, mit k = 2 bei Normalverteilung etwa 95 %, ohne Streuung zwischen Prüflingen. Eine Bewertung gilt den Ergebnissen und dem Grenzwert (TL) seiner Zeile, aus ungerundeten Werten. Was jeder Prüfling zeigte, und die Messmittel, stehen im Prüfbericht. † Angabe des Auftraggebers, nicht gemessen.',
    },
    runs: {
      heading: 'Auf welchen Versuchen beruht es?',
      counts: ({ line, runs, planned, inClaim }) =>
        `${line}: ${runs} ${runs === 1 ? 'Lauf' : 'Versuche'} aufgezeichnet, ${planned} geplant, ${inClaim} in der Aussage.`,
      list: ({ word, count, runs }) => `${word} ${count}${runs === '' ? '' : ` (${runs})`}`,
      refused: 'Datei abgewiesen',
      outside: 'gültig, außerhalb der Aussage',
      unjudged: 'gehört zu keiner Zeile des Plans',
      none: 'keine',
      to: 'bis',
      deviations: (count, report) =>
        `Abweichungen vom Verfahren: in ${count} ${count === 1 ? 'Lauf' : 'Versuchen'}, beschrieben im Bericht ${report}.`,
      noDeviations: 'Abweichungen vom Verfahren: keine.',
    },
    decision: {
      heading: 'Was wurde entschieden, und was ist offen?',
      disposition: 'Entscheid',
      dispositionOf: (number, outcome) => `${number}: ${outcome}`,
      deciders: 'Entschieden durch',
      reason: 'Grund',
      restsOn: 'Beruht auf',
      report: (name) => `Prüfbericht ${name}`,
      nonconformities: 'Offene Nichtkonformitäten',
      concessions: 'Sonderfreigaben und Abweichungserlaubnisse',
      flags: 'Offene Meldungen zur Produktsicherheit',
      outside: 'Fremde Ergebnisse',
      opinions: 'Meinungen',
      inReport: 'im Prüfbericht',
      open: 'offen',
      none: 'keine',
      given: (marks) => `im Prüfbericht, gekennzeichnet mit ${marks}`,
    },
    reach: {
      heading: 'Wie weit reicht es, und wer steht dafür ein?',
      items: (asReceived) => [
        `Ergebnisse betreffen nur die geprüften Gegenstände, im Zustand bei Eingang und unter den genannten Bedingungen.${asReceived ? ' Sie gelten für die Probe wie erhalten.' : ''} Statistische Schranken beschreiben die mit ihnen genannte Grundgesamtheit unter den genannten Annahmen.`,
        'Es ist keine Erlaubnis und kein Rat, zu fahren, Rennen zu fahren oder einen angegebenen Druck zu überschreiten; Überleben beweist keine unbegrenzte Festigkeit, und ein Versagen beweist für sich keinen Mangel.',
        'Es ist keine Zulassung durch einen Verband und behauptet keine Akkreditierung des Labors. Software hat gerechnet; befähigte Menschen haben geurteilt und entschieden. Geprüfte Teile werden nicht wieder benutzt.',
      ],
    },
    status: {
      title: 'Nach dem Status fragen',
      ask: 'ob es noch in Kraft, ausgesetzt, ersetzt oder zurückgezogen ist, sagt das Labor unter',
      asPrinted: ({ state, at }) => `Wie gedruckt am ${at}: ${state}.`,
      noUrl: 'Ob es noch in Kraft ist, sagt das Labor jedem, der die Nummer dieses Zertifikats nennt.',
      alt: (url) => `QR-Code der Adresse ${url}`,
    },
    signing: {
      nobody: 'noch niemand',
      meanings: { prepared: 'Erstellt', reviewed: 'Überprüft', authorised: 'Freigegeben' },
      notSigned: 'nicht unterschrieben',
    },
    notice: 'nur vollständig vervielfältigen',
    endMark: (name) => `Ende des Zertifikats ${name}`,
  },
};
