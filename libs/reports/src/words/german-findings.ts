/**
 * What reading a record and reckoning with its values may say, named in English and in German: questions of checks, and why
 * a number could not be had. What a check found in numbers is quoted as it was kept.
 */
export const GERMAN_FINDINGS = {
  // Questions of checks
  'Are there readings that no pressure can have made?': 'Gibt es Messwerte, die kein Druck erzeugt haben kann?',
  'Did the force stay well within the range of its sensor?': 'Blieb die Kraft deutlich im Messbereich ihres Sensors?',
  'Did the peak stay well within the range of the sensor?': 'Blieb der Höchstwert deutlich im Messbereich des Sensors?',
  'Did the pressure drop on its way up?': 'Fiel der Druck während des Anstiegs ab?',
  'Did the run end as it should, and do record and examination agree?':
    'Endete der Versuch, wie er sollte, und stimmen Aufzeichnung und Untersuchung überein?',
  'Did the run end as it should, and do strikes and examination agree?':
    'Endete der Versuch, wie er sollte, und stimmen Schläge und Untersuchung überein?',
  'Did the stage last as long as its programme?': 'Dauerte die Stufe so lange wie ihr Programm?',
  'Did the strike bring the energy it aimed at?': 'Brachte der Schlag die angestrebte Energie?',
  'Did the strike meet its point?': 'Traf der Schlag seine Stelle?',
  'Did the striker fall as freely as the method asks?': 'Fiel der Schlagkörper so frei, wie das Verfahren verlangt?',
  'Did the wheel turn as fast as the stage asks?': 'Drehte das Rad so schnell, wie die Stufe verlangt?',
  'Did the zero of the sensor stay where it was?': 'Blieb der Nullpunkt des Sensors, wo er war?',
  'Do displacement and force belong to the same moment?': 'Gehören Weg und Kraft zum selben Zeitpunkt?',
  'Do the speeds and the force agree?': 'Stimmen Geschwindigkeiten und Kraft überein?',
  'Do the two pressure sensors agree?': 'Stimmen die beiden Drucksensoren überein?',
  'Do the two pressure sensors see the burst at the same moment?':
    'Sehen die beiden Drucksensoren das Bersten zum selben Zeitpunkt?',
  'Do the two track temperatures agree?': 'Stimmen die beiden Temperaturen der Bremsfläche überein?',
  'Do the two ways to the deflection agree?': 'Stimmen die beiden Wege zur Verformung überein?',
  'Does each column carry its own channel?': 'Trägt jede Spalte ihren eigenen Kanal?',
  'Does the infrared temperature of the track agree with contact?':
    'Stimmt die Infrarottemperatur der Bremsfläche mit der berührend gemessenen überein?',
  'Has the striker the mass of the method?': 'Hat der Schlagkörper die Masse des Verfahrens?',
  'How was the pressure lost?': 'Wie ging der Druck verloren?',
  'Is every stage recorded?': 'Ist jede Stufe aufgezeichnet?',
  'Is it recorded what held the air: latex, butyl, or no tube?':
    'Ist erfasst, was die Luft hielt: Latex, Butyl oder kein Schlauch?',
  'Is it recorded which pads braked?': 'Ist erfasst, welche Beläge bremsten?',
  'Is the record without gaps?': 'Ist die Aufzeichnung lückenlos?',
  'Is the strike recorded?': 'Ist der Schlag aufgezeichnet?',
  'Is the top of the record whole?': 'Ist die Spitze der Aufzeichnung vollständig?',
  'Was the air stream as fast as the stage asks?': 'War der Luftstrom so schnell, wie die Stufe verlangt?',
  'Was the brake driven as the method asks?': 'Wurde die Bremse betrieben, wie das Verfahren verlangt?',
  'Was the brake kept on?': 'Blieb die Bremse angelegt?',
  'Was the braking power what the stage asks?': 'War die Bremsleistung die der Stufe?',
  'Was the force at rest before contact?': 'War die Kraft vor dem Kontakt in Ruhe?',
  'Was the line vented while the zero was taken?': 'War die Leitung entlüftet, als der Nullpunkt genommen wurde?',
  'Was the loss of mass of the pads measured?': 'Wurde der Masseverlust der Beläge gemessen?',
  'Was the pad as hard as the method asks, by a reading in date?':
    'War der Stempelbelag nach einer gültigen Ablesung so hart, wie das Verfahren verlangt?',
  'Was the pad whole after the run?': 'War der Stempelbelag nach dem Versuch unversehrt?',
  'Was the part bled of air?': 'War das Teil entlüftet?',
  'Was the pressure raised as fast as the method asks?':
    'Wurde der Druck so schnell gesteigert, wie das Verfahren verlangt?',
  'Was the record sampled fast enough?': 'Wurde schnell genug abgetastet?',
  'Was the room as warm as the method asks?': 'War der Raum so warm, wie das Verfahren verlangt?',
  'Was the specimen loaded at all?': 'Wurde der Prüfling überhaupt belastet?',
  'Was the specimen struck at all?': 'Wurde der Prüfling überhaupt getroffen?',
  'Was the specimen without a strike before this run?': 'War der Prüfling vor diesem Versuch ohne Schlag?',
  'Was the striker caught before it fell again?': 'Wurde der Schlagkörper vor einem zweiten Schlag gefangen?',
  'Was the track cold when the first stage began?': 'War die Bremsfläche zu Beginn der ersten Stufe kalt?',
  'Was the tyre at the pressure of the method when it began?': 'Hatte der Reifen zu Beginn den Druck des Verfahrens?',
  'Were the bolts that hold the wheel at their torque?': 'Hatten die Schrauben, die das Rad halten, ihr Drehmoment?',
  'Were the pads still pads when it ended?': 'Waren die Beläge am Ende noch Beläge?',
  'Were the spokes at their tension before the strike?': 'Hatten die Speichen vor dem Schlag ihre Spannung?',
  'Were the strikes those that the method asks for?': 'Waren die Schläge die, die das Verfahren verlangt?',
  'Which stage of the method is this?': 'Welche Stufe des Verfahrens ist dies?',

  // What must stand beside a value
  'driven at {control}: not comparable with {others}': 'betrieben mit {control}: nicht vergleichbar mit {others}',
  'constant power': 'konstanter Leistung',
  'constant force': 'konstanter Kraft',
  'constant lever weight': 'konstantem Hebelgewicht',
  'lives at constant force or constant lever weight': 'Standzeiten bei konstanter Kraft oder konstantem Hebelgewicht',
  'lives at constant power or constant lever weight':
    'Standzeiten bei konstanter Leistung oder konstantem Hebelgewicht',
  'lives at constant power or constant force': 'Standzeiten bei konstanter Leistung oder konstanter Kraft',
  'this is one wheel struck {n} times: damage may have grown from strike to strike, so it is not pooled with wheels struck once':
    'dies ist ein {n}-mal getroffenes Rad: der Schaden kann von Schlag zu Schlag gewachsen sein, deshalb wird es nicht mit einmal getroffenen Rädern zusammengefasst',
  'Strike {n}, {energy}': 'Schlag {n}, {energy}',

  // Statistics: why there is no number, and what would help
  'criterion {criterion} is about something else than the value that the line is about':
    'Kriterium {criterion} betrifft etwas anderes als den Wert, um den es in der Zeile geht',
  'a series of strikes is not forecast': 'eine Reihe von Schlägen wird nicht vorhergesagt',
  'a specimen above the limit and within its guard band fails the one criterion and not the other, which one count cannot tell':
    'ein Prüfling über dem Grenzwert und innerhalb des Schutzabstands verfehlt das eine Kriterium und das andere nicht; eine Zählung allein unterscheidet das nicht',
  'at least 3 specimens of the claim are broken': 'mindestens 3 Prüflinge der Aussage sind gebrochen',
  '{n} strengths say too little of what others will be': '{n} Festigkeiten sagen zu wenig über die der übrigen',
  '1 strengths say too little of what others will be': '1 Festigkeit sagt zu wenig über die der übrigen',
  'the criteria are about more than one limit, and no distribution declared in the plan joins them':
    'die Kriterien betreffen mehr als einen Grenzwert, und keine im Prüfplan festgelegte Verteilung verbindet sie',
  'the line declares a distribution': 'die Zeile legt eine Verteilung fest',
  'the line has no criterion': 'die Zeile hat kein Kriterium',
  'the plan declares a distribution for one of them': 'der Prüfplan legt für eines davon eine Verteilung fest',
  'the plan declares a distribution, or pools no lots':
    'der Prüfplan legt eine Verteilung fest oder fasst keine Lose zusammen',
  'the plan gives it one': 'der Prüfplan gibt ihr eines',
  'the value is found to be recorded wrongly': 'der Wert erweist sich als falsch erfasst',
  'whether earlier lots would be pooled hangs on the strengths still to come, and no distribution is declared to draw them from':
    'ob frühere Lose zusammengefasst würden, hängt von den noch kommenden Festigkeiten ab, und keine Verteilung ist festgelegt, aus der sie zu ziehen wären',
  'criterion {criterion} is not decided by counting': 'Kriterium {criterion} wird nicht durch Zählen entschieden',
  'not estimable from {specimens}: {method} rev. {revision} asks for at least {least}':
    'nicht schätzbar aus {specimens}: {method} Rev. {revision} verlangt mindestens {least}',
  'at least {n} specimens make the claim': 'mindestens {n} Prüflinge tragen die Aussage',
  'specimen {specimen} was struck at {value}, which is none of the levels planned':
    'Prüfling {specimen} wurde bei {value} getroffen, das ist keine der geplanten Stufen',
  'the line has no such criterion': 'die Zeile hat kein solches Kriterium',
  'specimen {specimen} gave no exact value, and what others will give cannot be drawn from such':
    'Prüfling {specimen} lieferte keinen genauen Wert; was andere liefern werden, lässt sich daraus nicht ziehen',
  'every value so far is known exactly': 'jeder bisherige Wert ist genau bekannt',
  'the value is corrected': 'der Wert wird berichtigt',
  '{specimens} of the claim have no verdict': '{specimens} der Aussage ohne Bewertung',
  '{specimens} of the claim has no verdict': '{specimens} der Aussage ohne Bewertung',
  'each has one': 'jeder hat eine',
  'no specimen broke': 'kein Prüfling ist gebrochen',
  'no specimen broke, so there is nothing to draw': 'kein Prüfling ist gebrochen, es gibt also nichts zu zeichnen',
  'no specimen broke, so nothing limits the scale from above':
    'kein Prüfling ist gebrochen, nichts begrenzt also den Skalenparameter nach oben',
  'at least 1 specimen breaks': 'mindestens 1 Prüfling bricht',
  'at least one specimen breaks': 'mindestens ein Prüfling bricht',
  'at least 2 specimens break': 'mindestens 2 Prüflinge brechen',
  'at least 2 specimens are broken': 'mindestens 2 Prüflinge sind gebrochen',
  'at least 2 different values are given': 'mindestens 2 verschiedene Werte liegen vor',
  'at least one specimen breaks at a value below the largest value recorded':
    'mindestens ein Prüfling bricht unterhalb des größten erfassten Werts',
  'at least one specimen breaks below the largest value held':
    'mindestens ein Prüfling bricht unterhalb des größten gehaltenen Werts',
  'at least two specimens break at strengths known exactly or within an interval':
    'mindestens zwei Prüflinge brechen bei genau oder innerhalb eines Intervalls bekannten Festigkeiten',
  'one single strength would explain every specimen, so nothing limits how alike they are':
    'eine einzige Festigkeit würde jeden Prüfling erklären, nichts begrenzt also, wie gleich sie sind',
  'no failure lies strictly below the largest value recorded, so nothing limits how alike the specimens are':
    'kein Ausfall liegt unter dem größten erfassten Wert, nichts begrenzt also, wie gleich die Prüflinge sind',
  'one strength says nothing about scatter': 'eine Festigkeit sagt nichts über die Streuung',
  'all strengths are the same number, so nothing is known of their scatter':
    'alle Festigkeiten sind dieselbe Zahl, über ihre Streuung ist also nichts bekannt',
  'all values are the same number, which says nothing of how far the mean of others may lie from it':
    'alle Werte sind dieselbe Zahl; das sagt nichts darüber, wie weit der Mittelwert anderer davon liegen kann',
  'strengths are read finely enough to differ': 'Festigkeiten sind fein genug abgelesen, um sich zu unterscheiden',
  'strengths scatter less': 'die Festigkeiten streuen weniger',
  'strengths are above 0': 'die Festigkeiten liegen über 0',
  'every strength is above 0': 'jede Festigkeit liegt über 0',
  'more specimens are broken': 'mehr Prüflinge werden gebrochen',
  'specimens are broken': 'Prüflinge werden gebrochen',
  'more specimens break, or strengths scatter less': 'mehr Prüflinge brechen, oder die Festigkeiten streuen weniger',
  'more specimens are broken, strengths are known more exactly, or a smaller confidence is asked for':
    'mehr Prüflinge werden gebrochen, Festigkeiten sind genauer bekannt, oder ein geringeres Vertrauensniveau wird verlangt',
  'every specimen is taken to its break': 'jeder Prüfling wird bis zum Bruch geführt',
  'every specimen is taken to its break, or the plan declares a distribution-free or Weibull bound':
    'jeder Prüfling wird bis zum Bruch geführt, oder der Prüfplan legt eine verteilungsfreie oder Weibull-Grenze fest',
  'some strengths are known only as at most or between, and no exact conditional distribution exists for them':
    'einige Festigkeiten sind nur als höchstens oder zwischen bekannt; für sie gibt es keine exakte bedingte Verteilung',
  'every strength is known exactly, or the test ended at its last break':
    'jede Festigkeit ist genau bekannt, oder die Prüfung endete mit ihrem letzten Bruch',
  'fewer than two strengths are known exactly or within an interval, which is too little to know the scatter by':
    'weniger als zwei Festigkeiten sind genau oder innerhalb eines Intervalls bekannt, zu wenig für die Streuung',
  'specimens broke no more often at higher values than at lower ones, so nothing limits their scatter':
    'Prüflinge brachen bei höheren Werten nicht häufiger als bei tieferen, nichts begrenzt also ihre Streuung',
  'the bound lies below every strength a number can hold': 'die Grenze liegt unter jeder darstellbaren Festigkeit',
  'the bound lies beyond every strength a number can hold': 'die Grenze liegt über jeder darstellbaren Festigkeit',
  'the test was planned to end at the last break counted here':
    'die Prüfung sollte mit dem letzten hier gezählten Bruch enden',
  'noncentral-t': 'nichtzentrale t-Verteilung',
  'order-statistic': 'Ranggröße',
  'hanson-koopmans': 'Hanson-Koopmans',
  calibrated: 'kalibriert',
  'likelihood-ratio': 'Likelihood-Quotient',
  bootstrap: 'Bootstrap',

  // Records: why there is no value, and what would help
  'a measurement of {nameAsEntered} is keyed with its unit, instrument and person':
    'eine Messung von {nameAsEntered} wird mit Einheit, Messmittel und Person erfasst',
  'no value of {nameAsEntered} was keyed for run {run}': 'zu Versuch {run} wurde kein Wert von {nameAsEntered} erfasst',
  'no pressure was recorded: the largest reading is {value} above the vented start, within its noise':
    'kein Druck wurde aufgezeichnet: der größte Messwert liegt {value} über dem entlüfteten Beginn, innerhalb des Rauschens',
  'a record that holds the loading of this specimen is read':
    'eine Aufzeichnung mit der Belastung dieses Prüflings wird gelesen',
  'a record that holds the braking of this specimen is read':
    'eine Aufzeichnung mit der Bremsung dieses Prüflings wird gelesen',
  'a record that holds the strike is read': 'eine Aufzeichnung mit dem Schlag wird gelesen',
  'the record begins above {share} of its peak': 'die Aufzeichnung beginnt über {share} ihres Höchstwerts',
  'the record begins with the line vented': 'die Aufzeichnung beginnt mit entlüfteter Leitung',
  'the record ends before the line was vented again': 'die Aufzeichnung endet, bevor die Leitung wieder entlüftet war',
  'fewer than {n} samples lie on the ramp': 'weniger als {n} Abtastwerte liegen auf der Rampe',
  'the ramp is sampled faster or run slower': 'die Rampe wird schneller abgetastet oder langsamer gefahren',
  'the record is whole, or shows when the part failed':
    'die Aufzeichnung ist vollständig oder zeigt, wann das Teil versagte',
  'the temperature of the room was not recorded': 'die Raumtemperatur wurde nicht aufgezeichnet',
  'the rig records it beside the track': 'der Prüfstand zeichnet sie neben der Bremsfläche auf',
  'the flow into the part was not recorded': 'der Zufluss in das Teil wurde nicht aufgezeichnet',
  'the record has a channel {nameAsEntered}': 'die Aufzeichnung hat einen Kanal {nameAsEntered}',
  'the width of the rim was not recorded': 'die Felgenbreite wurde nicht aufgezeichnet',
  'neither the product nor the method states the glass transition of the resin':
    'weder Produkt noch Verfahren geben die Glasübergangstemperatur des Harzes an',
  'the product states it with its source': 'das Produkt gibt sie mit ihrer Quelle an',
  'no dropHeight was keyed for this strike': 'für diesen Schlag wurde keine Fallhöhe erfasst',
  'the height of the fall is keyed with its unit': 'die Fallhöhe wird mit ihrer Einheit erfasst',
  'neither gateTime nor impactSpeed was keyed for this strike':
    'für diesen Schlag wurde weder Torzeit noch Aufschlaggeschwindigkeit erfasst',
  'the time through the gate, or the speed, is keyed with its unit, instrument and person':
    'die Zeit durch die Lichtschranke oder die Geschwindigkeit wird mit Einheit, Messmittel und Person erfasst',
  'strike {n}: {because}': 'Schlag {n}: {because}',
  'this strike has no force record': 'zu diesem Schlag gibt es keine Kraftaufzeichnung',
  'the force of the strike is recorded': 'die Kraft des Schlags wird aufgezeichnet',
  'the method programmes no hold': 'das Verfahren sieht keine Haltezeit vor',
  'a method with a hold is used': 'ein Verfahren mit Haltezeit wird verwendet',
} as const;
