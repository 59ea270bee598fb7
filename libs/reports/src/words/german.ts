import { type FigureForm } from '@breakbook/figures';
import { type Catalogue } from '@breakbook/lab';
import { GERMAN_FINDINGS } from './german-findings.js';
import { GERMAN_STORED } from './german-stored.js';
import { GERMAN_WORDS } from './german-words.js';

const FIGURES: Catalogue<FigureForm> = {
  '{quantity}, {first} above, {second} below': '{quantity}, oben {first}, unten {second}',
  '{quantity}, logarithmic': '{quantity}, logarithmisch',
  'at least': 'mindestens',
  'at least {value}': 'mindestens {value}',
  'at most {value}': 'höchstens {value}',
  'below the limit, %': 'unter dem Grenzwert, %',
  between: 'zwischen',
  'between {lower} and {upper}': 'zwischen {lower} und {upper}',
  'broken ({n})': 'gebrochen ({n})',
  'chance to pass, %': 'Annahmewahrscheinlichkeit, %',
  gauge: 'Überdruck',
  absolute: 'absolut',
  'hold at least ({n})': 'halten mindestens ({n})',
  'lower bound at its tip, estimate at its end': 'untere Grenze an der Spitze, Schätzwert am Ende',
  'outside the claim ({n})': 'außerhalb der Aussage ({n})',
  'share broken, %': 'gebrochener Anteil, %',
  'specimen in the claim ({n})': 'Prüfling der Aussage ({n})',
  'time, {unit}': 'Zeit, {unit}',
  'lognormal line, median {median}, log s {sd}': 'Lognormal-Gerade, Median {median}, log s {sd}',
  'normal line, mean {mean}, s {sd}': 'Normal-Gerade, Mittelwert {mean}, s {sd}',
  'Weibull line, shape {shape}, scale {scale}': 'Weibull-Gerade, Formparameter {shape}, Skalenparameter {scale}',
};

/** What documents say, named by its English form, in German. */
export const GERMAN = {
  ...FIGURES,
  ...GERMAN_WORDS,
  ...GERMAN_FINDINGS,
  ...GERMAN_STORED,
  'quoted: {text}': '„{text}“ (englisch)',

  // Head and foot
  'Lot test report': 'Prüfbericht über ein Los',
  'Lot test report {number}': 'Prüfbericht {number}',
  'Lot test report {number}, {state}': 'Prüfbericht {number}, {state}',
  '{product}, lot {lot}: {plan}': '{product}, Los {lot}: {plan}',
  '{number} rev. {revision}': '{number} Rev. {revision}',
  'Amendment. This report replaces {document}. Changed: {changed}. Reason: {because}.':
    'Änderung. Dieser Prüfbericht ersetzt {document}. Geändert: {changed}. Grund: {because}.',
  authorised: 'freigegeben',
  'a decision about the lot, signed apart': 'eine gesondert unterschriebene Entscheidung über das Los',
  'unsigned draft': 'Entwurf ohne Unterschrift',
  'it is authorised by signature': 'Freigabe durch Unterschrift',
  'it is reviewed and authorised by signature': 'Prüfung und Freigabe durch Unterschrift',
  'State: {state}. Next: {next}.': 'Stand: {state}. Nächster Schritt: {next}.',
  'page {page} of {of}': 'Seite {page} von {of}',
  'reproduce only in full': 'nur vollständig vervielfältigen',
  'End of report {number}': 'Ende des Prüfberichts {number}',
  '{sign} stands for a letter that the fonts of this file do not have; the attached content keeps it.':
    '{sign} steht für ein Zeichen, das den Schriften dieser Datei fehlt; der beigefügte Inhalt enthält es.',
  'Signature of {name}': 'Signatur: {name}',
  'The content of this document as canonical JSON (RFC 8785)':
    'Der Inhalt dieses Dokuments als kanonisches JSON (RFC 8785)',
  'The signature of that content (RFC 7515, detached)': 'Die Signatur dieses Inhalts (RFC 7515, abgetrennt)',
  'The entry of the ledger that names that content, with its proof under a checkpoint (RFC 9162)':
    'Der Eintrag des Registers, der diesen Inhalt nennt, mit seinem Nachweis unter einem Prüfpunkt (RFC 9162)',
  'A raw file as the rig wrote it': 'Eine Rohdatei, wie der Prüfstand sie geschrieben hat',
  Customer: 'Auftraggeber',
  Contact: 'Ansprechpartner',
  'Location of the tests': 'Ort der Prüfungen',
  Product: 'Produkt',
  Lot: 'Los',
  '{lot}, {kind}, {n} units, made {days}': '{lot}, {kind}, {n} Einheiten, gefertigt {days}',
  '{low} to {high}': '{low} bis {high}',
  ' to ': ' bis ',
  Plan: 'Prüfplan',
  '{plan} rev. {revision}, approved {day}': '{plan} Rev. {revision}, genehmigt {day}',
  Method: 'Prüfverfahren',
  '{method} rev. {revision}: {title}': '{method} Rev. {revision}: {title}',
  'Specimens received': 'Eingang der Prüflinge',
  'Specimens drawn': 'Probenahme',
  'not by the lab: as received': 'nicht durch das Labor: wie erhalten',
  Tested: 'Geprüft',
  Issued: 'Ausgestellt',
  Replaces: 'Ersetzt',
  'none: first issue': 'keinen: erste Ausgabe',

  // What does the lot hold?
  'What does the lot hold?': 'Was hält das Los?',
  'What must be known beside the numbers': 'Was neben den Zahlen zu wissen ist',
  'Nothing.': 'Nichts.',
  'No picture: {because}.': 'Keine Abbildung: {because}.',
  'Criterion {criterion}. {said}': 'Kriterium {criterion}. {said}',
  'Stages declared before the test': 'Vor der Prüfung festgelegte Stufen',
  'Earlier lots': 'Frühere Lose',
  'Values far from the others': 'Weit abliegende Werte',
  'Forecast, which decides nothing': 'Vorhersage, die nichts entscheidet',
  'Not evaluated: {because}. Possible if {what}.': 'Nicht ausgewertet: {because}. Möglich, wenn: {what}.',
  '{sentence} Standard error {error} of {replicates} simulated lots, seed {seed}. Assumed: {assumptions}.':
    '{sentence} Standardfehler {error} aus {replicates} simulierten Losen, Startwert {seed}. Vorausgesetzt: {assumptions}.',
  'It becomes possible if {what}.': 'Möglich, wenn: {what}.',
  Criterion: 'Kriterium',
  Outcome: 'Ausgang',
  Limit: 'Grenzwert',
  'Lower bound': 'Untere Grenze',
  Estimate: 'Schätzwert',
  'Coverage and confidence': 'Mindestanteil und Vertrauensniveau',
  'How found': 'Ermittlung',
  'none claimed': 'nicht beansprucht',
  'reaches {confidence}': 'erreicht {confidence}',
  'The plan states no criterion.': 'Der Prüfplan nennt kein Kriterium.',

  // Limits
  'Which limits apply, and how is a result set against them?':
    'Welche Grenzwerte gelten, und wie wird ein Ergebnis an ihnen bewertet?',
  Value: 'Wert',
  'Basis, source and edition': 'Grundlage, Quelle und Ausgabe',
  'Applies to': 'Gilt für',
  'In force from': 'Gültig ab',
  Standing: 'Status',
  '{basis} (external)': '{basis} (extern)',
  'Decision rules': 'Entscheidungsregeln',
  Rule: 'Regel',
  'In words': 'In Worten',
  Formula: 'Formel',
  'lower TL{plus} ≤ y ≤ upper TL{minus}': 'untere TL{plus} ≤ y ≤ obere TL{minus}',
  'number found = 0': 'Anzahl gefunden = 0',
  'y is the result, U its expanded uncertainty, TL the limit. Under a simple rule a result at the limit is wrongly accepted with a probability of up to 50 %; a guard band of U lowers that below 2.5 % (ILAC-G8:09/2019). Every verdict is made from the unrounded result and the unrounded limit; results are printed rounded to their uncertainty, with more digits where fewer would show them on the other side of a limit.':
    'y ist das Ergebnis, U seine erweiterte Messunsicherheit, TL der Grenzwert. Nach einer einfachen Regel wird ein Ergebnis am Grenzwert mit einer Wahrscheinlichkeit von bis zu 50 % zu Unrecht angenommen; ein Schutzabstand von U senkt sie unter 2,5 % (ILAC-G8:09/2019). Jede Bewertung beruht auf dem ungerundeten Ergebnis und dem ungerundeten Grenzwert; gedruckt werden Ergebnisse auf ihre Messunsicherheit gerundet und mit mehr Stellen dort, wo sie mit weniger auf der anderen Seite eines Grenzwerts erschienen.',

  // Risks
  'What did the plan risk?': 'Welches Risiko trug der Prüfplan?',
  'Line {line}: {title}': 'Zeile {line}: {title}',
  'At the edge of the claim passes': 'Am Rand der Aussage angenommen',
  Keeps: 'Hält ein',
  '{because}. It becomes possible if {what}.': '{because}. Möglich, wenn: {what}.',
  'claims none': 'beansprucht keines',
  'Assumed: {what}.': 'Vorausgesetzt: {what}.',
  'Line {line}: chance to pass': 'Zeile {line}: Annahmewahrscheinlichkeit',
  'Line {line}: how often a lot passes each criterion, by the share of it that lies below its limit.':
    'Zeile {line}: wie häufig ein Los jedes Kriterium besteht, nach dem Anteil, der unter dessen Grenzwert liegt.',
  'the claim denies {share}': 'die Aussage schließt {share} aus',
  'All criteria together: not evaluated, because {because}.': 'Alle Kriterien zusammen: nicht ausgewertet ({because}).',

  // Specimens
  'What was tested?': 'Was wurde geprüft?',
  Model: 'Modell',
  'Bead and brake': 'Felgenhorn und Bremse',
  'Marked maximum pressure': 'Aufgedruckter Höchstdruck',
  '{pressure}, gauge': '{pressure}, Überdruck',
  'Inner width': 'Maulweite',
  Specimen: 'Prüfling',
  Serial: 'Seriennummer',
  Origin: 'Herkunft',
  Received: 'Eingang',
  'Condition at receipt': 'Zustand beim Eingang',
  Mass: 'Masse',
  Build: 'Aufbau',
  'no serial: {reason}': 'keine Seriennummer: {reason}',
  'no reason given': 'kein Grund angegeben',
  'none stated': 'keine angegeben',
  'no specimen was tested': 'kein Prüfling wurde geprüft',
  'Every specimen on record was tested.': 'Jeder erfasste Prüfling wurde geprüft.',
  '{n} further on record and not tested.': '{n} weitere erfasst und nicht geprüft.',
  'Photographs of the specimens: none with this report.': 'Fotografien der Prüflinge: keine zu diesem Bericht.',
  'stated by the customer; the lab did not measure it and answers for nothing that rests on it.':
    'Angabe des Auftraggebers; vom Labor nicht gemessen, das für nichts einsteht, was darauf beruht.',

  // Results
  'What did each specimen show, and does it conform?': 'Was zeigte jeder Prüfling, und ist er konform?',
  'given by the customer, not measured by this lab, which answers for no effect it has on the results':
    'Angabe des Auftraggebers, von diesem Labor nicht gemessen, das für deren Einfluss auf die Ergebnisse nicht einsteht',
  'measured by an outside provider, not by this lab': 'von einem externen Anbieter gemessen, nicht von diesem Labor',
  'A verdict covers the one result in its row and the one limit named above it; the words of ILAC-G8:09/2019 the distance of the result from the limit, the zone in which it lies and P, the probability that the specimen itself conforms by the measurement alone (JCGM 106:2012, 7), stand below. "At least" is printed where the part was not broken at the value: it held that much. Results of invalid runs and of runs not decided are not printed; the runs are listed further on.':
    'Eine Konformitätsaussage gilt für das eine Ergebnis ihrer Zeile und den einen darüber genannten Grenzwert; darunter stehen die Worte nach ILAC-G8:09/2019, der Abstand des Ergebnisses vom Grenzwert, der Bereich, in dem es liegt, und P, die Wahrscheinlichkeit, mit der der Prüfling selbst allein nach der Messung konform ist (JCGM 106:2012, 7). „Mindestens“ steht, wo das Teil bei diesem Wert nicht gebrochen war: so viel hat es gehalten. Ergebnisse ungültiger und nicht entschiedener Versuche werden nicht gedruckt; die Versuche sind weiter unten aufgeführt.',
  '{title}, plan line {line}': '{title}, Prüfplanzeile {line}',
  Result: 'Ergebnis',
  'Expanded uncertainty': 'Erweiterte Messunsicherheit',
  'Why it is known so': 'Warum es so bekannt ist',
  'run {run}': 'Versuch {run}',
  'no valid run': 'kein gültiger Versuch',
  'Signs that must be absent, plan line {line}': 'Anzeichen, die fehlen müssen, Prüfplanzeile {line}',
  '{limit}: none of {signs}; looked for {method}, which finds {detects}.':
    '{limit}: keines der Anzeichen {signs}; Untersuchung: {method}; damit wird erkannt: {detects}.',
  'the run does not give it': 'der Versuch liefert es nicht',
  'possible if {what}': 'möglich, wenn: {what}',
  'no verdict was given': 'keine Bewertung abgegeben',
  'none found': 'keines gefunden',
  '{signs} found': '{signs} gefunden',
  'Further results, plan line {line}: no limit of the plan bears on them':
    'Weitere Ergebnisse, Prüfplanzeile {line}: kein Grenzwert des Prüfplans betrifft sie',
  'Each passage by itself, plan line {line}': 'Jeder Durchgang für sich, Prüfplanzeile {line}',
  Passage: 'Durchgang',
  'Failure modes seen': 'Beobachtete Versagensarten',
  Code: 'Code',
  Meaning: 'Bedeutung',
  'Counts as': 'Zählt als',
  Seen: 'Beobachtet',
  '{as} of {title}': '{as} ({title})',

  // Runs
  'Which runs were made, and which make the claim?':
    'Welche Versuche wurden ausgeführt, und welche tragen die Aussage?',
  '{title}: {runs} recorded, {planned} planned. Valid {valid}, valid with deviation {withDeviation}, invalid {invalid}, validity not decided {notDecided}, void {voided}. In the claim: {inClaim}.':
    '{title}: {runs} erfasst, {planned} geplant. Gültig {valid}, gültig mit Abweichung {withDeviation}, ungültig {invalid}, Gültigkeit nicht entschieden {notDecided}, hinfällig {voided}. In der Aussage: {inClaim}.',
  'Runs whose file was refused and is kept unread: {n}.':
    'Versuche, deren Datei abgewiesen wurde und ungelesen aufbewahrt wird: {n}.',
  Run: 'Versuch',
  Started: 'Beginn',
  'Rig, operator': 'Prüfstand, Prüfer',
  'How it ended': 'Wie er endete',
  'Validity, decided by': 'Gültigkeit, entschieden von',
  'In the claim': 'In der Aussage',
  'keyed from a table': 'aus einer Tabelle erfasst',
  'it belongs to no line of the plan': 'er gehört zu keiner Zeile des Prüfplans',
  'no run was made': 'kein Versuch ausgeführt',
  'no examination recorded': 'keine Untersuchung erfasst',
  'not judged': 'nicht bewertet',
  'its file was refused': 'seine Datei wurde abgewiesen',
  'Checks of the records that did not pass ({checks} made)':
    'Nicht bestandene Kontrollen der Aufzeichnungen ({checks} ausgeführt)',
  Question: 'Frage',
  Finding: 'Befund',
  'Refused files, kept unread': 'Abgewiesene Dateien, ungelesen aufbewahrt',
  'What was wrong': 'Was daran falsch war',

  // Affairs
  'How often was tried, and what else bears on the items?':
    'Wie oft wurde versucht, und was betrifft die Prüflinge sonst?',
  '{specimen} (runs {runs})': '{specimen} (Versuche {runs})',
  'Runs by plan line, every one counted': 'Versuche nach Prüfplanzeile, jeder gezählt',
  Line: 'Zeile',
  Planned: 'Geplant',
  Runs: 'Versuche',
  Valid: 'Gültig',
  Invalid: 'Ungültig',
  Void: 'Hinfällig',
  'Valid, not asked for by the plan': 'Gültig, vom Prüfplan nicht verlangt',
  'the plan has no line': 'der Prüfplan hat keine Zeile',
  'Specimens run more than once: {specimens}.': 'Mehr als einmal geprüfte Prüflinge: {specimens}.',
  'Retest {number} was authorised: {runs} on line {line}, made: {used}. {reason}':
    'Wiederholungsprüfung {number} wurde genehmigt: {runs} auf Zeile {line}, ausgeführt: {used}. {reason}',
  'Nonconformities affecting the items': 'Nichtkonformitäten, die die Prüflinge betreffen',
  'No.': 'Nr.',
  What: 'Was',
  'Opened by': 'Eröffnet durch',
  State: 'Stand',
  Due: 'Fällig',
  'not set': 'nicht festgelegt',
  'none recorded': 'keine erfasst',
  'Product-safety flags on the lot': 'Hinweise zur Produktsicherheit des Loses',
  Raised: 'Gemeldet',
  Decision: 'Entscheidung',
  'This program does not decide whether a product is safe, or whether anybody must be told. Whom to tell, and by when, is for licensed counsel and local law, and periods may be short and may have begun: ask at once.':
    'Dieses Programm entscheidet nicht, ob ein Produkt sicher ist oder ob jemand zu unterrichten ist. Wer bis wann zu unterrichten ist, bestimmen zugelassene Rechtsberater und das örtliche Recht; Fristen können kurz sein und bereits laufen: sofort fragen.',
  'The records of this lot are kept until {records}, its remnants until {remnants}.':
    'Die Aufzeichnungen zu diesem Los werden bis {records} aufbewahrt, seine Reste bis {remnants}.',
  'On legal hold: {held}; nothing it covers is run or disposed of.':
    'Sperrvermerk aus Rechtsgründen: {held}; nichts davon wird geprüft oder entsorgt.',
  'Concessions and deviation permits (none changes a verdict)': 'Sonderfreigaben (keine ändert eine Bewertung)',
  'Kind, state': 'Art, Stand',
  Departs: 'Abweichung',
  Reaches: 'Umfang',
  Until: 'Bis',
  Risk: 'Risiko',
  '1 unit': '1 Einheit',
  '{n} units': '{n} Einheiten',
  'serial {serials}': 'Seriennummer {serials}',
  'serials {serials}': 'Seriennummern {serials}',
  'Old results of this lot, {mark}': 'Alte Ergebnisse dieses Loses, {mark}',
  'told by a table, no raw file, not recomputable': 'aus einer Tabelle, ohne Rohdatei, nicht nachrechenbar',
  'They enter no verdict, no judgement of a lot and no claim: no plan has a rule that pools them.':
    'Sie gehen in keine Bewertung, kein Urteil über ein Los und keine Aussage ein: kein Prüfplan hat eine Regel, die sie zusammenfasst.',
  'Table, line': 'Tabelle, Zeile',
  Item: 'Gegenstand',
  'Test, quantity': 'Prüfung, Größe',
  'As told': 'Wie angegeben',
  Day: 'Tag',
  Source: 'Quelle',
  'Validity as told': 'Gültigkeit wie angegeben',

  // Opinions
  'Opinions and interpretations': 'Meinungen und Interpretationen',
  'What stands in a box is an opinion of whom it names. It is no result of a test.':
    'Was in einem Kasten steht, ist die Meinung der darin genannten Person. Es ist kein Prüfergebnis.',
  ', on the results of evaluation {evaluation}': ', zu den Ergebnissen der Auswertung {evaluation}',
  'Opinion {number}{version}, on {subject}': 'Meinung {number}{version}, zu {subject}',
  ', version {version}': ', Fassung {version}',
  'lot {lot}': 'Los {lot}',
  'Basis: {basis}': 'Grundlage: {basis}',
  'Told by word of mouth to {person} on {day}.': 'Mündlich mitgeteilt: {person}, {day}.',
  'Given by {name}, {role}, {time} ({zone}){rests}.': 'Abgegeben von {name}, {role}, {time} ({zone}){rests}.',

  // Spread
  'How do the specimens spread, and how was the bound found?':
    'Wie streuen die Prüflinge, und wie wurde die Grenze ermittelt?',
  'How a bound was found is told in the units in which it was computed.':
    'Wie eine Grenze ermittelt wurde, ist in den Einheiten angegeben, in denen gerechnet wurde.',
  'Declared before the first run': 'Vor dem ersten Versuch festgelegt',
  '{title}: {characteristic}, plan line {line}': '{title}: {characteristic}, Prüfplanzeile {line}',
  'No probability plot: {because}. Possible if {what}.':
    'Kein Wahrscheinlichkeitsnetz: {because}. Möglich, wenn: {what}.',
  'not evaluated: {because}': 'nicht ausgewertet: {because}',
  'Specimens in the claim': 'Prüflinge der Aussage',
  '{n}: {broken} broken, {held} held at least their value':
    '{n}: {broken} gebrochen, {held} hielten mindestens ihren Wert',
  'Mean and standard deviation': 'Mittelwert und Standardabweichung',
  Mean: 'Mittelwert',
  'Standard deviation': 'Standardabweichung',
  'Lowest and highest': 'Kleinster und größter Wert',
  'Weibull fit': 'Weibull-Anpassung',
  'Weibull shape, maximum likelihood': 'Weibull-Formparameter, Maximum-Likelihood',
  'Weibull scale (63.2 %)': 'Weibull-Skalenparameter (63,2 %)',
  ', {confidence} limits {limits}': ', Vertrauensgrenzen zu {confidence}: {limits}',
  'Claim declared before the test': 'Vor der Prüfung festgelegte Aussage',
  'Population, use': 'Grundgesamtheit, Verwendung',
  Modes: 'Versagensarten',
  'Values known from one side': 'Einseitig bekannte Werte',
  'Pooling with other lots': 'Zusammenfassung mit anderen Losen',
  'the units of this lot': 'die Einheiten dieses Loses',
  'the process that made the lot': 'der Prozess, aus dem das Los stammt',
  'Plan line {line}, {title}:': 'Prüfplanzeile {line}, {title}:',
  'no other mode was told apart': 'keine andere Versagensart wurde unterschieden',
  Answer: 'Antwort',
  'The bound with every mode counted as a failure': 'Die Grenze, wenn jede Versagensart als Ausfall zählt',
  'no step was needed': 'kein Schritt war nötig',

  // Record and equipment
  'What does the record of the lowest result look like?': 'Wie sieht die Aufzeichnung des kleinsten Ergebnisses aus?',
  '{title}: none. No valid run of this line has a record over time.':
    '{title}: keine. Kein gültiger Versuch dieser Zeile hat eine Aufzeichnung über der Zeit.',
  'With what equipment?': 'Mit welchen Prüfmitteln?',
  'Rig and channel': 'Prüfstand und Kanal',
  Sensor: 'Sensor',
  Calibration: 'Kalibrierung',
  'Calibrated, due': 'Kalibriert, fällig',
  Uncertainty: 'Messunsicherheit',
  'Traceable to': 'Rückführung auf',
  'Valid on the days of test': 'Gültig an den Prüftagen',
  'none: values were keyed; the instrument of each is kept with the value':
    'keine: Werte wurden erfasst; das Messmittel steht bei jedem Wert',
  '{sensor}, serial {serial}': '{sensor}, Seriennummer {serial}',
  'by {person}': 'durch {person}',
  'overdue in run {runs}': 'überfällig in Versuch {runs}',
  'Instruments read by a person': 'Von einer Person abgelesene Messmittel',
  Instrument: 'Messmittel',
  Measured: 'Gemessen',

  // Conduct
  'How were the specimens drawn?': 'Wie wurden die Prüflinge entnommen?',
  'Drawn by, on': 'Entnommen von, am',
  Place: 'Ort',
  'Lot size': 'Losumfang',
  'Seed of the random numbers': 'Startwert der Zufallszahlen',
  'The lab did not draw the specimens. Results apply to the sample as received.':
    'Das Labor hat die Prüflinge nicht entnommen. Die Ergebnisse gelten für die Stichprobe wie erhalten.',
  'Remarks on the lot: none.': 'Bemerkungen zum Los: keine.',
  'Remarks on the lot: {note}': 'Bemerkungen zum Los: {note}',
  'Under what conditions?': 'Unter welchen Bedingungen?',
  Condition: 'Bedingung',
  'every run': 'jeder Versuch',
  'run {runs}': 'Versuch {runs}',
  'valid with deviation; no description is recorded': 'gültig mit Abweichung; keine Beschreibung erfasst',
  'What departs from the method?': 'Was weicht vom Verfahren ab?',
  'Additions to, deviations and exclusions from the method: none.':
    'Ergänzungen zum, Abweichungen vom und Ausschlüsse aus dem Verfahren: keine.',
  Deviation: 'Abweichung',
  '{share} by the distributions of the parts': '{share} nach den Verteilungen der Anteile',
  'k = {factor} for {asked}': 'k = {factor} für {asked}',
  'How sure is a single measurement?': 'Wie sicher ist eine einzelne Messung?',
  Characteristic: 'Merkmal',
  U: 'U',
  'Coverage factor': 'Erweiterungsfaktor',
  Components: 'Beiträge',
  'U is the expanded uncertainty of one measurement, evaluated by the GUM (JCGM 100:2008) from the components named; with k = 2 it covers about 95 % for a normal distribution. It does not contain the scatter between specimens, the choice of tyre, or what differs between this bench and use on the road; scatter is told by the statistics and never added to U.':
    'U ist die erweiterte Messunsicherheit einer einzelnen Messung, nach dem GUM (JCGM 100:2008) aus den genannten Beiträgen ermittelt; mit k = 2 überdeckt sie bei einer Normalverteilung etwa 95 %. Sie enthält weder die Streuung zwischen den Prüflingen noch die Wahl des Reifens noch den Unterschied zwischen diesem Prüfstand und dem Gebrauch auf der Straße; die Streuung steht in der Statistik und wird U nie zugeschlagen.',
  'nobody yet': 'noch niemand',

  // Closing
  'What is not included?': 'Was ist nicht enthalten?',
  'Results from outside providers': 'Ergebnisse externer Anbieter',
  'marked ‡ above': 'oben mit ‡ gekennzeichnet',
  'Values given by the customer': 'Angaben des Auftraggebers',
  'marked † above': 'oben mit † gekennzeichnet',
  Photographs: 'Fotografien',
  'none with this report': 'keine zu diesem Bericht',
  'each in its box above': 'jede oben in ihrem Kasten',
  'see the list above': 'siehe die Liste oben',
  Concessions: 'Sonderfreigaben',
  'Claims of accreditation or approval': 'Aussagen zu Akkreditierung oder Zulassung',
  'none: this report claims no accreditation of the lab and no approval by a governing body':
    'keine: dieser Bericht beansprucht weder eine Akkreditierung des Labors noch die Zulassung durch einen Verband',
  'Decision about the lot': 'Entscheidung über das Los',
  'none: what becomes of the lot is decided and signed apart from this report':
    'keine: was mit dem Los geschieht, wird getrennt von diesem Bericht entschieden und unterschrieben',
  Status: 'Status',
  'as printed on {time}; ask the lab whether a later revision replaces it':
    'wie gedruckt am {time}; ob ein späterer Ausgabestand ihn ersetzt, beantwortet das Labor',
  'How far do these results reach?': 'Wie weit reichen diese Ergebnisse?',
  'Results concern only the items tested, in the condition in which they were received and under the conditions stated.':
    'Die Ergebnisse beziehen sich ausschließlich auf die geprüften Gegenstände, in dem Zustand, in dem sie eingingen, und unter den genannten Bedingungen.',
  'They apply to the sample as received.': 'Sie gelten für die Stichprobe wie erhalten.',
  'Statistical bounds describe the population named with them, under the assumptions named with them.':
    'Statistische Grenzen beschreiben die mit ihnen genannte Grundgesamtheit unter den mit ihnen genannten Voraussetzungen.',
  'Survival is not proof of unlimited strength, and a failure is not by itself proof of a defect.':
    'Standhalten beweist keine unbegrenzte Festigkeit, und ein Ausfall beweist für sich allein keinen Fehler.',
  'This report is no licence and no advice to ride, to race, or to exceed a marked pressure; the limits of use are those of the maker.':
    'Dieser Bericht ist weder Erlaubnis noch Rat, zu fahren, Rennen zu fahren oder einen aufgedruckten Druck zu überschreiten; die Grenzen des Gebrauchs setzt der Hersteller.',
  'It is not an approval by a governing body or an accreditation body.':
    'Er ist keine Zulassung durch einen Verband oder eine Akkreditierungsstelle.',
  'The software computes; qualified people judge and decide.':
    'Die Software rechnet; sachkundige Personen urteilen und entscheiden.',
  'Tested parts are not used again: they are marked, and destroyed or kept.':
    'Geprüfte Teile werden nicht wieder verwendet: sie werden gekennzeichnet und zerstört oder aufbewahrt.',
  'Who signs?': 'Wer unterschreibt?',
  'Tested by': 'Geprüft von',
  'Validity of the runs decided by': 'Gültigkeit der Versuche entschieden von',
  Prepared: 'Erstellt',
  Reviewed: 'Geprüft',
  'Authorised for release': 'Freigegeben',
  'not signed': 'nicht unterschrieben',
  'Which raw files does this rest on?': 'Auf welchen Rohdateien beruht dies?',
  File: 'Datei',
  Bytes: 'Bytes',
  'SHA-256 of its bytes': 'SHA-256 der Bytes',
  'not stated': 'nicht angegeben',
  'none: values were keyed from a results table': 'keine: Werte wurden aus einer Ergebnistabelle erfasst',
  'Read and judged with {software}. The content of this report is attached to it as canonical JSON (RFC 8785), so that its numbers can be computed again from this file.':
    'Gelesen und bewertet mit {software}. Der Inhalt dieses Berichts ist ihm als kanonisches JSON (RFC 8785) beigefügt, sodass seine Zahlen aus dieser Datei nachgerechnet werden können.',

  // Figures
  '{title} of lot {lot} against its limits': '{title} von Los {lot} im Vergleich zu den Grenzwerten',
  'Margin strip. {specimens}. {others}.': 'Abstandsstreifen. {specimens}. {others}.',
  '{title} of {specimens} of lot {lot}, {method} rev. {revision}, with the limits and lower bounds of plan {plan} rev. {planRevision}. {left}':
    '{title}: {specimens} von Los {lot}, {method} Rev. {revision}, mit den Grenzwerten und unteren Grenzen nach Prüfplan {plan} Rev. {planRevision}. {left}',
  'Every run is shown.': 'Jeder Versuch ist gezeigt.',
  'Not shown: {runs} without a valid value, listed with the runs.':
    'Nicht gezeigt, da ohne gültigen Wert und bei den Versuchen aufgeführt: {runs}.',
  'External limit {name}': 'Externer Grenzwert {name}',
  'Internal limit {name}': 'Hausinterner Grenzwert {name}',
  'Lower bound {bound}, limit {limit}': 'Untere Grenze {bound}, Grenzwert {limit}',
  Weibull: 'Weibull',
  Normal: 'Normal',
  Lognormal: 'Lognormal',
  '{paper} probability plot, {title} of lot {lot}': '{paper}-Wahrscheinlichkeitsnetz, {title} von Los {lot}',
  '{confidence} confidence limits, profile likelihood': '{confidence}-Vertrauensgrenzen, Profil-Likelihood',
  'Fitted line of mean {mean} and standard deviation {sd}.':
    'Angepasste Gerade mit Mittelwert {mean} und Standardabweichung {sd}.',
  'Fitted line of median {median} and log standard deviation {sd}.':
    'Angepasste Gerade mit Median {median} und logarithmischer Standardabweichung {sd}.',
  '{paper} probability plot of {broken} and {held} that held at least a value.':
    '{paper}-Wahrscheinlichkeitsnetz: {broken}; mindestens einen Wert hielten: {held}.',
  '{value} at {share}': '{value} bei {share}',
  'Fitted line of shape {shape} and scale {scale}.':
    'Angepasste Gerade mit Formparameter {shape} und Skalenparameter {scale}.',
  '{title} of the {specimens} in the claim, at exact median ranks (adjusted for specimens that held at least a value). {fit} Method {method} rev. {revision}.':
    '{title} in der Aussage ({specimens}), an exakten Medianrängen (angepasst für Prüflinge, die mindestens einen Wert hielten). {fit} Prüfverfahren {method} Rev. {revision}.',
  'Line: maximum likelihood fit; it describes and does not decide.':
    'Gerade: Maximum-Likelihood-Anpassung; sie beschreibt und entscheidet nicht.',
  'No line is fitted.': 'Keine Gerade ist angepasst.',
  ', moved': ', verschoben',
  'run {run}{passage}, specimen {specimen}': 'Versuch {run}{passage}, Prüfling {specimen}',
  ', passage {passage}': ', Durchgang {passage}',
  '{name} at {time} s, {value}': '{name} bei {time} s, {value}',
  'Record of {which}': 'Aufzeichnung: {which}',
  'Record over time of {channels}. {moments}.': 'Aufzeichnung über der Zeit: {channels}. {moments}.',
  'Record of {which}, read by {method} rev. {revision} with {software}. Each stretch of time shows its smallest and largest sample. Marked: {marked}.':
    'Aufzeichnung: {which}, gelesen nach {method} Rev. {revision} mit {software}. Jeder Zeitabschnitt zeigt seinen kleinsten und größten Abtastwert. Gekennzeichnet: {marked}.',
} as const;
