import type { DisposalState, Language } from '@breakbook/lab';

export interface Messages {
  kind: string;
  subject: (given: { specimen: string; product: string; lot: string }) => string;
  sentence: (given: { specimen: string; state: string; at: string; by: string }) => string;
  received: (specimen: string, at: string) => string;
  next: { run: string; keep: (until: string) => string; none: string; held: string };
  replaces: (given: { name: string; changed: string; because: string }) => string;
  facts: Record<
    | 'customer'
    | 'product'
    | 'lot'
    | 'serial'
    | 'origin'
    | 'received'
    | 'drawn'
    | 'condition'
    | 'mass'
    | 'build'
    | 'report'
    | 'issued',
    string
  >;
  noSerial: (reason: string) => string;
  notMeasured: string;
  noneStated: string;
  asReceived: string;
  noReport: string;
  firstIssue: string;
  states: {
    heading: string;
    since: string;
    state: string;
    by: string;
    said: string;
    inRun: (run: string) => string;
    none: string;
  };
  runs: {
    heading: string;
    run: string;
    ofRun: (run: string) => string;
    method: string;
    made: string;
    found: string;
    validity: string;
    none: string;
    keyed: string;
    notExamined: string;
    part: (found: 'sound' | 'not sound' | 'not examined') => string;
    results: string;
    characteristic: string;
    result: string;
    uncertainty: string;
    why: string;
    noResults: string;
    notEvaluated: string;
    noUncertainty: string;
    gauge: Record<'gauge' | 'absolute', string>;
    files: string;
    file: string;
    digest: string;
    noFiles: string;
    unknown: string;
    note: string;
  };
  photos: {
    heading: string;
    file: string;
    caption: string;
    taken: string;
    digest: string;
    none: string;
    note: string;
  };
  fate: {
    heading: string;
    keeping: string;
    notSaid: string;
    until: (day: string, note: string) => string;
    holds: string;
    none: string;
    disposal: string;
    notAsked: string;
    disposalOf: (given: { number: number; state: string; how: string; reason: string }) => string;
    states: Record<DisposalState, string>;
    askedBy: string;
    authorisedBy: string;
    done: (given: { how: string; place: string; at: string; by: string }) => string;
    nonconformities: string;
    open: string;
    closed: string;
    opinions: string;
    outside: string;
    given: (marks: string) => string;
  };
  reach: { heading: string; text: string; status: (at: string) => string };
  signing: { meanings: Record<'prepared' | 'reviewed' | 'authorised', string>; notSigned: string };
  notice: string;
  endMark: (name: string) => string;
}

export const MESSAGES: Record<Language, Messages> = {
  en: {
    kind: 'Specimen record',
    subject: ({ specimen, product, lot }) => `Specimen ${specimen}: ${product}, lot ${lot}`,
    sentence: ({ specimen, state, at, by }) => `Specimen ${specimen} is ${state} since ${at}, by ${by}.`,
    received: (specimen, at) => `Specimen ${specimen} was received on ${at}.`,
    next: {
      run: 'a run is made with it',
      keep: (until) => `its remnants are kept until ${until}`,
      none: 'none',
      held: 'it stays as it is while it is on legal hold',
    },
    replaces: ({ name, changed, because }) =>
      `Amendment. This record replaces ${name}. Changed: ${changed}. Reason: ${because}.`,
    facts: {
      customer: 'Customer, contact',
      product: 'Product †',
      lot: 'Lot †',
      serial: 'Serial',
      origin: 'Origin',
      received: 'Received',
      drawn: 'Drawn',
      condition: 'Condition at receipt',
      mass: 'Mass',
      build: 'Build †',
      report: 'Lot test report',
      issued: 'Issued; replaces',
    },
    noSerial: (reason) => `no serial: ${reason}`,
    notMeasured: 'not measured',
    noneStated: 'none stated',
    asReceived: 'not by the lab: as received',
    noReport: 'none yet',
    firstIssue: 'none: first issue',
    states: {
      heading: 'What states was it in?',
      since: 'Since',
      state: 'State',
      by: 'By',
      said: 'What was said',
      inRun: (run) => `in run ${run}`,
      none: 'none recorded',
    },
    runs: {
      heading: 'Which runs were made with it, and what did they show?',
      run: 'Run, line',
      ofRun: (run) => `run ${run}`,
      method: 'Method',
      made: 'Made',
      found: 'Found after it',
      validity: 'Validity, decided by',
      none: 'no run was made with it',
      keyed: 'keyed from a table',
      notExamined: 'no examination recorded',
      part: (word) => `part ${word}`,
      results: 'Results of valid runs',
      characteristic: 'Characteristic',
      result: 'Result',
      uncertainty: 'Expanded uncertainty',
      why: 'Why it is known so',
      noResults: 'none',
      notEvaluated: 'not evaluated',
      noUncertainty: 'none stated',
      gauge: { gauge: 'gauge', absolute: 'absolute' },
      files: 'Raw files',
      file: 'File',
      digest: 'SHA-256 of its bytes',
      noFiles: 'none',
      unknown: 'not stated',
      note: 'U covers one measurement, with k = 2 about 95 % for a normal distribution. Limits, verdicts, conditions, equipment and deviations of each run stand on its run sheet and in the lot test report.',
    },
    photos: {
      heading: 'Which photographs are kept?',
      file: 'File',
      caption: 'What it shows',
      taken: 'Taken by, on, with',
      digest: 'SHA-256',
      none: 'none',
      note: 'Photographs are kept with the records and named here by their digests; none is printed on this record.',
    },
    fate: {
      heading: 'What becomes of it?',
      keeping: 'Kept until',
      notSaid: 'not said for it; what was said for its lot holds',
      until: (day, note) => `${day}: ${note}`,
      holds: 'Legal holds',
      none: 'none',
      disposal: 'Disposal',
      notAsked: 'not asked for',
      disposalOf: ({ number, state, how, reason }) => `${number}, ${state}: ${how} Reason: ${reason}`,
      states: {
        'asked for': 'asked for',
        authorised: 'authorised',
        refused: 'refused',
        withdrawn: 'withdrawn',
        'carried out': 'carried out',
      },
      askedBy: 'Asked for by',
      authorisedBy: 'Authorised by',
      done: ({ how, place, at, by }) => `${how} ${place}, ${at}, by ${by}.`,
      nonconformities: 'Nonconformities that name it',
      open: 'open',
      closed: 'closed',
      opinions: 'Opinions and interpretations',
      outside: 'Results given by others',
      given: (marks) => `marked ${marks} above: † given by the customer, ‡ measured by an outside provider`,
    },
    reach: {
      heading: 'How far does it reach, and who signs?',
      text: 'This record concerns this specimen only. It is no licence and no advice to ride, to race, or to exceed a marked pressure, and not an approval by a governing body or an accreditation body. Survival is not proof of unlimited strength; a failure is not by itself proof of a defect. A tested part is not used again: it is marked, and destroyed or kept. † stated by the customer; the lab did not measure it.',
      status: (at) => `As printed on ${at}; ask the lab whether a later revision replaces it.`,
    },
    signing: {
      meanings: { prepared: 'Prepared', reviewed: 'Reviewed', authorised: 'Authorised for release' },
      notSigned: 'not signed',
    },
    notice: 'reproduce only in full',
    endMark: (name) => `End of specimen record ${name}`,
  },
  de: {
    kind: 'Prüflingsakte',
    subject: ({ specimen, product, lot }) => `Prüfling ${specimen}: ${product}, Los ${lot}`,
    sentence: ({ specimen, state, at, by }) => `Prüfling ${specimen} ist ${state} seit ${at}, durch ${by}.`,
    received: (specimen, at) => `Prüfling ${specimen} ging am ${at} ein.`,
    next: {
      run: 'mit ihm wird ein Versuch gemacht',
      keep: (until) => `seine Reste werden bis ${until} aufbewahrt`,
      none: 'nichts',
      held: 'er bleibt, wie er ist, solange er gesperrt ist',
    },
    replaces: ({ name, changed, because }) =>
      `Änderung. Diese Akte ersetzt ${name}. Geändert: ${changed}. Grund: ${because}.`,
    facts: {
      customer: 'Auftraggeber, Ansprechperson',
      product: 'Produkt †',
      lot: 'Los †',
      serial: 'Seriennummer',
      origin: 'Herkunft',
      received: 'Eingegangen',
      drawn: 'Gezogen',
      condition: 'Zustand bei Eingang',
      mass: 'Masse',
      build: 'Aufbau †',
      report: 'Prüfbericht',
      issued: 'Ausgestellt; ersetzt',
    },
    noSerial: (reason) => `keine Seriennummer: ${reason}`,
    notMeasured: 'nicht gemessen',
    noneStated: 'keine Angabe',
    asReceived: 'nicht durch das Labor: wie erhalten',
    noReport: 'noch keiner',
    firstIssue: 'keine: erste Ausgabe',
    states: {
      heading: 'In welchen Zuständen war er?',
      since: 'Seit',
      state: 'Zustand',
      by: 'Durch',
      said: 'Was dazu gesagt wurde',
      inRun: (run) => `in Versuch ${run}`,
      none: 'keine aufgezeichnet',
    },
    runs: {
      heading: 'Welche Versuche wurden mit ihm gemacht, und was zeigten sie?',
      run: 'Versuch, Zeile',
      ofRun: (run) => `Versuch ${run}`,
      method: 'Verfahren',
      made: 'Gemacht',
      found: 'Danach gefunden',
      validity: 'Gültigkeit, entschieden durch',
      none: 'mit ihm wurde kein Versuch gemacht',
      keyed: 'aus einer Tabelle eingegeben',
      notExamined: 'keine Untersuchung aufgezeichnet',
      part: (found) =>
        ({ sound: 'Teil unversehrt', 'not sound': 'Teil nicht unversehrt', 'not examined': 'Teil nicht untersucht' })[
          found
        ],
      results: 'Ergebnisse gültiger Versuche',
      characteristic: 'Merkmal',
      result: 'Ergebnis',
      uncertainty: 'Erweiterte Unsicherheit',
      why: 'Warum es so bekannt ist',
      noResults: 'keine',
      notEvaluated: 'nicht bewertet',
      noUncertainty: 'keine angegeben',
      gauge: { gauge: 'Überdruck', absolute: 'absolut' },
      files: 'Rohdateien',
      file: 'Datei',
      digest: 'SHA-256 ihrer Bytes',
      noFiles: 'keine',
      unknown: 'nicht angegeben',
      note: 'U gilt für eine Messung und überdeckt mit k = 2 bei Normalverteilung etwa 95 %. Grenzwerte, Bewertungen, Bedingungen, Messmittel und Abweichungen jedes Versuchs stehen auf seinem Versuchsblatt und im Prüfbericht.',
    },
    photos: {
      heading: 'Welche Fotos sind aufbewahrt?',
      file: 'Datei',
      caption: 'Was es zeigt',
      taken: 'Aufgenommen durch, am, mit',
      digest: 'SHA-256',
      none: 'keine',
      note: 'Fotos sind bei den Aufzeichnungen und hier mit ihren Prüfsummen genannt; keines ist auf dieser Akte gedruckt.',
    },
    fate: {
      heading: 'Was wird aus ihm?',
      keeping: 'Aufbewahrt bis',
      notSaid: 'für ihn nicht gesagt; es gilt, was für sein Los gesagt wurde',
      until: (day, note) => `${day}: ${note}`,
      holds: 'Rechtliche Sperren',
      none: 'keine',
      disposal: 'Entsorgung',
      notAsked: 'nicht beantragt',
      disposalOf: ({ number, state, how, reason }) => `${number}, ${state}: ${how} Grund: ${reason}`,
      states: {
        'asked for': 'beantragt',
        authorised: 'genehmigt',
        refused: 'abgelehnt',
        withdrawn: 'zurückgezogen',
        'carried out': 'ausgeführt',
      },
      askedBy: 'Beantragt durch',
      authorisedBy: 'Genehmigt durch',
      done: ({ how, place, at, by }) => `${how} ${place}, ${at}, durch ${by}.`,
      nonconformities: 'Nichtkonformitäten, die ihn nennen',
      open: 'offen',
      closed: 'geschlossen',
      opinions: 'Meinungen und Interpretationen',
      outside: 'Ergebnisse von anderen',
      given: (marks) =>
        `oben gekennzeichnet mit ${marks}: † Angabe des Auftraggebers, ‡ von einem anderen Anbieter gemessen`,
    },
    reach: {
      heading: 'Wie weit reicht sie, und wer unterschreibt?',
      text: 'Diese Akte betrifft nur diesen Prüfling. Sie ist keine Erlaubnis und kein Rat, zu fahren, Rennen zu fahren oder einen angegebenen Druck zu überschreiten, und keine Zulassung durch einen Verband oder eine Akkreditierungsstelle. Überleben beweist keine unbegrenzte Festigkeit; ein Versagen beweist für sich keinen Mangel. Ein geprüftes Teil wird nicht wieder benutzt: es wird gekennzeichnet und zerstört oder aufbewahrt. † Angabe des Auftraggebers; das Labor hat sie nicht gemessen.',
      status: (at) => `Wie gedruckt am ${at}; ob eine spätere Revision sie ersetzt, sagt das Labor.`,
    },
    signing: {
      meanings: { prepared: 'Erstellt', reviewed: 'Überprüft', authorised: 'Freigegeben' },
      notSigned: 'nicht unterschrieben',
    },
    notice: 'nur vollständig vervielfältigen',
    endMark: (name) => `Ende der Prüflingsakte ${name}`,
  },
};
