import type { Language } from '@breakbook/lab';

export interface Messages {
  kind: string;
  subject: (given: { run: string; specimen: string; product: string; lot: string }) => string;
  sentence: {
    valid: (given: { validity: string; by: string; verdicts: string }) => string;
    other: (given: { validity: string; by: string; why: string }) => string;
    notDecided: string;
    refused: string;
    verdict: (outcome: string, limit: string) => string;
    noLimit: string;
  };
  next: { decide: string; report: (name: string) => string; noReport: string };
  replaces: (given: { name: string; changed: string; because: string }) => string;
  facts: Record<
    | 'customer'
    | 'location'
    | 'method'
    | 'specimen'
    | 'condition'
    | 'build'
    | 'plan'
    | 'rig'
    | 'started'
    | 'conditions'
    | 'received'
    | 'issued',
    string
  >;
  serial: (serial: string) => string;
  noSerial: (reason: string) => string;
  keyed: string;
  noneStated: string;
  noneRecorded: string;
  line: (line: string, title: string) => string;
  firstIssue: string;
  shown: {
    heading: string;
    characteristic: string;
    result: string;
    uncertainty: string;
    why: string;
    noUncertainty: string;
    notEvaluated: string;
    possibleIf: (help: string) => string;
    recordOnly: (validity: string) => string;
    none: string;
    limit: string;
    asks: string;
    verdict: string;
    margin: string;
    inForce: (day: string) => string;
    noVerdict: (because: string) => string;
    noLimits: string;
    gauge: Record<'gauge' | 'absolute', string>;
    claim: (inClaim: boolean, because: string) => string;
    record: string;
    noRecord: string;
  };
  conduct: {
    heading: string;
    examined: string;
    notExamined: string;
    part: (found: 'sound' | 'not sound' | 'not examined') => string;
    photos: string;
    photosOf: (count: number) => string;
    noPhotos: string;
    readiness: string;
    claim: string;
    notConfirmed: string;
    deviations: string;
    none: string;
    checks: string;
    checked: (made: number, failed: number) => string;
    question: string;
    outcome: Record<'pass' | 'flag' | 'fail' | 'not evaluated', string>;
    outcomeTitle: string;
    finding: string;
    refusedTitle: string;
    wrong: string;
  };
  equipment: {
    channel: string;
    sensor: string;
    calibration: string;
    dates: string;
    uncertainty: string;
    valid: string;
    yes: string;
    no: string;
    unknown: string;
    serial: (serial: string) => string;
    none: string;
    keyed: (list: string) => string;
    file: (name: string, bytes: string, digest: string) => string;
    noFiles: string;
    read: (software: string) => string;
  };
  people: {
    heading: string;
    tested: string;
    validity: string;
    notDecided: string;
    authorised: string;
    notSigned: string;
    reach: string;
    status: (at: string) => string;
  };
  cut: { rows: (count: number, report: string | undefined) => string; texts: (report: string | undefined) => string };
  notice: string;
  endMark: (name: string) => string;
}

const SEE = {
  en: (report: string | undefined) =>
    report === undefined
      ? 'see the attached content, and the lot test report'
      : `see lot test report ${report}, and the attached content`,
  de: (report: string | undefined) =>
    report === undefined
      ? 'siehe den angehängten Inhalt und den Prüfbericht'
      : `siehe Prüfbericht ${report} und den angehängten Inhalt`,
};

export const MESSAGES: Record<Language, Messages> = {
  en: {
    kind: 'Run sheet',
    subject: ({ run, specimen, product, lot }) => `Run ${run}: specimen ${specimen}, ${product}, lot ${lot}`,
    sentence: {
      valid: ({ validity, by, verdicts }) => `The run is ${validity}, as decided by ${by}. ${verdicts}`,
      other: ({ validity, by, why }) =>
        `The run is ${validity}, as decided by ${by}${why === '' ? '' : `: ${why}`}. It makes no claim, and no verdict is given.`,
      notDecided: 'Whether the run is valid has not been decided yet; until then no verdict is given.',
      refused: 'Its file was refused and is kept unread; nothing is judged.',
      verdict: (outcome, limit) => `${outcome} (${limit})`,
      noLimit: 'No limit of the plan bears on it.',
    },
    next: {
      decide: 'a second person decides whether the run is valid',
      report: (name) => `lot test report ${name} tells what the lot holds`,
      noReport: 'the lot test report will tell what the lot holds',
    },
    replaces: ({ name, changed, because }) =>
      `Amendment. This sheet replaces ${name}. Changed: ${changed}. Reason: ${because}.`,
    facts: {
      customer: 'Customer, contact',
      location: 'Location of the test',
      method: 'Method',
      specimen: 'Specimen',
      condition: 'Condition at receipt',
      build: 'Build †',
      plan: 'Plan, line',
      rig: 'Rig, operator',
      started: 'Tested',
      conditions: 'Conditions',
      received: 'Specimen received, drawn',
      issued: 'Issued; replaces',
    },
    serial: (serial) => `serial ${serial}`,
    noSerial: (reason) => `no serial: ${reason}`,
    keyed: 'keyed from a table',
    noneStated: 'none stated',
    noneRecorded: 'none recorded',
    line: (line, title) => `line ${line}: ${title}`,
    firstIssue: 'none: first issue',
    shown: {
      heading: 'What did the run show, and does it conform?',
      characteristic: 'Characteristic',
      result: 'Result',
      uncertainty: 'Expanded uncertainty',
      why: 'Why it is known so',
      noUncertainty: 'none stated',
      notEvaluated: 'not evaluated',
      possibleIf: (help) => `possible if ${help}`,
      recordOnly: (validity) => `As the record has it; the run is ${validity}, so these are no results of the specimen`,
      none: 'none',
      limit: 'Limit, source, edition',
      asks: 'Asks for, decision rule',
      verdict: 'Verdict',
      margin: 'Margin',
      inForce: (day) => `in force from ${day}`,
      noVerdict: (because) => `none: ${because}`,
      noLimits: 'none: the plan line has no limit',
      gauge: { gauge: 'gauge', absolute: 'absolute' },
      claim: (inClaim, because) => (inClaim ? 'yes' : `no: ${because}`),
      record: 'Record over time',
      noRecord: 'none of this run',
    },
    conduct: {
      heading: 'How did it go, what was found, and who stands behind it?',
      examined: 'Examination',
      notExamined: 'none recorded',
      part: (word) => `part ${word}`,
      photos: 'Photographs',
      photosOf: (count) => `${count}, kept with the records; none with this sheet`,
      noPhotos: 'none',
      readiness: 'Readiness confirmed',
      claim: 'In the claim of its plan line',
      notConfirmed: 'not recorded',
      deviations: 'Deviations from the method',
      none: 'none',
      checks: 'Checks of the record',
      checked: (made, failed) =>
        made === 0 ? 'none made' : `${made} made, ${failed === 0 ? 'all passed' : `${failed} not passed, below`}`,
      question: 'Question',
      outcomeTitle: 'Outcome',
      outcome: { pass: 'pass', flag: 'flag', fail: 'fail', 'not evaluated': 'not evaluated' },
      finding: 'Finding',
      refusedTitle: 'Refused files, kept unread',
      wrong: 'What was wrong',
    },
    equipment: {
      channel: 'Channel',
      sensor: 'Sensor',
      calibration: 'Calibration',
      dates: 'Calibrated, due',
      uncertainty: 'Uncertainty',
      valid: 'Valid then',
      yes: 'yes',
      no: 'no',
      unknown: 'unknown',
      serial: (serial) => `serial ${serial}`,
      none: 'none: values were keyed',
      keyed: (list) => `Read by a person: ${list}.`,
      file: (name, bytes, digest) => `Raw file ${name}, ${bytes} bytes, SHA-256 ${digest}`,
      noFiles: 'Raw files: none, values were keyed.',
      read: (software) =>
        `A verdict is on the result and the limit (TL) of its row, from unrounded values. U covers one measurement, with k = 2 about 95 % for a normal distribution, and no scatter. † stated by the customer; ‡ results from outside providers: none where none is marked. Opinions and interpretations: none; nonconformities and concessions: see the lot test report. Read with ${software}; the content is attached as canonical JSON (RFC 8785).`,
    },
    people: {
      heading: 'How far does it reach?',
      tested: 'Tested by',
      validity: 'Validity decided by',
      notDecided: 'nobody yet',
      authorised: 'Authorised for release',
      notSigned: 'not signed',
      reach:
        'The results concern only the item tested, as received and under the conditions stated. They are no licence and no advice to ride, to race, or to exceed a marked pressure, and no approval by a governing body or an accreditation body; survival is not proof of unlimited strength, nor a failure by itself of a defect. The part is not used again.',
      status: (at) => `As printed on ${at}; ask the lab whether a later revision replaces it.`,
    },
    cut: {
      rows: (count, report) =>
        `${count} more ${count === 1 ? 'row is' : 'rows are'} not shown on this page: ${SEE.en(report)}.`,
      texts: (report) => `Texts that end in … are shortened on this page: ${SEE.en(report)}.`,
    },
    notice: 'reproduce only in full',
    endMark: (name) => `End of run sheet ${name}`,
  },
  de: {
    kind: 'Versuchsblatt',
    subject: ({ run, specimen, product, lot }) => `Versuch ${run}: Prüfling ${specimen}, ${product}, Los ${lot}`,
    sentence: {
      valid: ({ validity, by, verdicts }) => `Der Versuch ist ${validity}, entschieden durch ${by}. ${verdicts}`,
      other: ({ validity, by, why }) =>
        `Der Versuch ist ${validity}, entschieden durch ${by}${why === '' ? '' : `: ${why}`}. Er trägt zu keiner Aussage bei, und es wird keine Bewertung abgegeben.`,
      notDecided: 'Ob der Versuch gültig ist, ist noch nicht entschieden; bis dahin wird keine Bewertung abgegeben.',
      refused: 'Seine Datei wurde abgewiesen und ist ungelesen aufbewahrt; nichts wird beurteilt.',
      verdict: (outcome, limit) => `${outcome} (${limit})`,
      noLimit: 'Kein Grenzwert des Plans betrifft ihn.',
    },
    next: {
      decide: 'eine zweite Person entscheidet, ob der Versuch gültig ist',
      report: (name) => `Prüfbericht ${name} sagt, was das Los hält`,
      noReport: 'der Prüfbericht wird sagen, was das Los hält',
    },
    replaces: ({ name, changed, because }) =>
      `Änderung. Dieses Blatt ersetzt ${name}. Geändert: ${changed}. Grund: ${because}.`,
    facts: {
      customer: 'Auftraggeber, Ansprechperson',
      location: 'Ort der Prüfung',
      method: 'Verfahren',
      specimen: 'Prüfling',
      condition: 'Zustand bei Eingang',
      build: 'Aufbau †',
      plan: 'Plan, Zeile',
      rig: 'Prüfstand, Bedienperson',
      started: 'Geprüft',
      conditions: 'Bedingungen',
      received: 'Prüfling eingegangen, gezogen',
      issued: 'Ausgestellt; ersetzt',
    },
    serial: (serial) => `Seriennummer ${serial}`,
    noSerial: (reason) => `keine Seriennummer: ${reason}`,
    keyed: 'aus einer Tabelle eingegeben',
    noneStated: 'keine Angabe',
    noneRecorded: 'keine aufgezeichnet',
    line: (line, title) => `Zeile ${line}: ${title}`,
    firstIssue: 'keines: erste Ausgabe',
    shown: {
      heading: 'Was zeigte der Versuch, und ist es konform?',
      characteristic: 'Merkmal',
      result: 'Ergebnis',
      uncertainty: 'Erweiterte Unsicherheit',
      why: 'Warum es so bekannt ist',
      noUncertainty: 'keine angegeben',
      notEvaluated: 'nicht bewertet',
      possibleIf: (help) => `möglich, wenn: ${help}`,
      recordOnly: (validity) =>
        `Wie aufgezeichnet; der Versuch ist ${validity}, darum sind dies keine Ergebnisse des Prüflings`,
      none: 'keine',
      limit: 'Grenzwert, Quelle, Ausgabe',
      asks: 'Verlangt, Entscheidungsregel',
      verdict: 'Bewertung',
      margin: 'Abstand',
      inForce: (day) => `in Kraft ab ${day}`,
      noVerdict: (because) => `keine: ${because}`,
      noLimits: 'keine: die Zeile des Plans hat keinen Grenzwert',
      gauge: { gauge: 'Überdruck', absolute: 'absolut' },
      claim: (inClaim, because) => (inClaim ? 'ja' : `nein: ${because}`),
      record: 'Aufzeichnung über die Zeit',
      noRecord: 'keine von diesem Versuch',
    },
    conduct: {
      heading: 'Wie verlief er, was wurde gefunden, und wer steht dafür ein?',
      examined: 'Untersuchung',
      notExamined: 'keine aufgezeichnet',
      part: (found) =>
        ({ sound: 'Teil unversehrt', 'not sound': 'Teil nicht unversehrt', 'not examined': 'Teil nicht untersucht' })[
          found
        ],
      photos: 'Fotos',
      photosOf: (count) => `${count}, bei den Aufzeichnungen; keine auf diesem Blatt`,
      noPhotos: 'keine',
      readiness: 'Bereitschaft bestätigt',
      claim: 'In der Aussage seiner Planzeile',
      notConfirmed: 'nicht aufgezeichnet',
      deviations: 'Abweichungen vom Verfahren',
      none: 'keine',
      checks: 'Prüfungen der Aufzeichnung',
      checked: (made, failed) =>
        made === 0
          ? 'keine'
          : `${made}, ${failed === 0 ? 'alle bestanden' : `davon ${failed} nicht bestanden, siehe unten`}`,
      question: 'Frage',
      outcomeTitle: 'Ausgang',
      outcome: { pass: 'bestanden', flag: 'auffällig', fail: 'nicht bestanden', 'not evaluated': 'nicht bewertet' },
      finding: 'Befund',
      refusedTitle: 'Abgewiesene Dateien, ungelesen aufbewahrt',
      wrong: 'Was nicht stimmte',
    },
    equipment: {
      channel: 'Kanal',
      sensor: 'Aufnehmer',
      calibration: 'Kalibrierung',
      dates: 'Kalibriert, fällig',
      uncertainty: 'Unsicherheit',
      valid: 'Da gültig',
      yes: 'ja',
      no: 'nein',
      unknown: 'unbekannt',
      serial: (serial) => `Seriennummer ${serial}`,
      none: 'keine: Werte wurden eingegeben',
      keyed: (list) => `Von einer Person abgelesen: ${list}.`,
      file: (name, bytes, digest) => `Rohdatei ${name}, ${bytes} Bytes, SHA-256 ${digest}`,
      noFiles: 'Rohdateien: keine, Werte wurden eingegeben.',
      read: (software) =>
        `Eine Bewertung gilt dem Ergebnis und dem Grenzwert (TL) seiner Zeile, aus ungerundeten Werten. U gilt für eine Messung, mit k = 2 bei Normalverteilung etwa 95 %, ohne Streuung. † Angabe des Auftraggebers; ‡ Ergebnisse anderer Anbieter: keine, wo keine gekennzeichnet sind. Meinungen und Interpretationen: keine; Nichtkonformitäten und Sonderfreigaben: siehe Prüfbericht. Gelesen mit ${software}; der Inhalt ist als kanonisches JSON angehängt (RFC 8785).`,
    },
    people: {
      heading: 'Wie weit reicht es?',
      tested: 'Geprüft durch',
      validity: 'Gültigkeit entschieden durch',
      notDecided: 'noch niemand',
      authorised: 'Freigegeben',
      notSigned: 'nicht unterschrieben',
      reach:
        'Die Ergebnisse betreffen nur den geprüften Gegenstand, wie erhalten und unter den genannten Bedingungen. Sie sind keine Erlaubnis und kein Rat, zu fahren, Rennen zu fahren oder einen angegebenen Druck zu überschreiten, und keine Zulassung durch einen Verband oder eine Akkreditierungsstelle; Überleben beweist keine unbegrenzte Festigkeit, ein Versagen für sich keinen Mangel. Das Teil wird nicht wieder benutzt.',
      status: (at) => `Wie gedruckt am ${at}; ob eine spätere Revision es ersetzt, sagt das Labor.`,
    },
    cut: {
      rows: (count, report) =>
        `${count} weitere ${count === 1 ? 'Zeile steht' : 'Zeilen stehen'} nicht auf dieser Seite: ${SEE.de(report)}.`,
      texts: (report) => `Texte, die mit … enden, sind auf dieser Seite gekürzt: ${SEE.de(report)}.`,
    },
    notice: 'nur vollständig vervielfältigen',
    endMark: (name) => `Ende des Versuchsblatts ${name}`,
  },
};
