/**
 * Sentences that a judgement keeps in English without all that went into them, and the same in German. A hole whose name
 * ends in `AsEntered` holds what a person wrote; any other holds numbers, names, or words that are known here too.
 */
export const GERMAN_STORED = {
  // Why a value is known as it is
  '{code} ({meaningAsEntered}) came first': '{code} ({meaningAsEntered}) trat zuerst ein',
  'the rig failed before the part': 'der Prüfstand versagte vor dem Teil',
  '{what}; it counts as a failure although the part is noted as sound':
    '{what}; es zählt als Ausfall, obwohl das Teil als unversehrt vermerkt ist',
  '{what}, and the method takes that to say nothing of this characteristic':
    '{what}; nach dem Verfahren sagt das nichts über dieses Merkmal',
  'another specimen is tested': 'ein anderer Prüfling wird geprüft',
  '{what}, but {doubt}: counted as a failure of the part': '{what}, aber {doubt}: als Ausfall des Teils gezählt',
  '{code} ({meaningAsEntered}) was found too': '{code} ({meaningAsEntered}) wurde ebenfalls gefunden',
  '{code} ({meaningAsEntered}) was found': '{code} ({meaningAsEntered}) wurde gefunden',
  'the part was found not sound': 'das Teil wurde nicht unversehrt vorgefunden',
  'whether the part is sound was not looked at': 'ob das Teil unversehrt ist, wurde nicht untersucht',
  '{what} and the part was found sound': '{what} und das Teil wurde unversehrt vorgefunden',
  'the run ended without a break ({reason})': 'der Versuch endete ohne Bruch ({reason})',
  'no failure mode of the method bears on it': 'keine Versagensart des Verfahrens betrifft es',
  'no examination of the specimen is recorded, so it is not known what gave way at this {titleAsEntered}':
    'keine Untersuchung des Prüflings ist erfasst; was bei diesem Merkmal ({titleAsEntered}) nachgab, ist nicht bekannt',
  'a person examines the specimen and records the end reason and the failure modes':
    'eine Person untersucht den Prüfling und erfasst, wie der Versuch endete und welche Versagensarten vorliegen',
  'the examination names failure mode {mode}, which {method} rev. {revision} does not know':
    'die Untersuchung nennt die Versagensart {mode}, die {method} Rev. {revision} nicht kennt',
  'the examination is corrected, or a revision of the method takes the mode in':
    'die Untersuchung wird berichtigt, oder ein Ausgabestand des Verfahrens nimmt die Versagensart auf',
  'something broke, but the examination names no failure mode':
    'etwas ist gebrochen, aber die Untersuchung nennt keine Versagensart',
  'the examination is completed with the failure mode that came first':
    'die Untersuchung wird um die zuerst eingetretene Versagensart ergänzt',
  'the record shows only that it was at least this': 'die Aufzeichnung zeigt nur, dass es mindestens so viel war',
  'the record shows only that it was at most this': 'die Aufzeichnung zeigt nur, dass es höchstens so viel war',
  'the record shows only that it lay between these': 'die Aufzeichnung zeigt nur, dass es zwischen diesen lag',
  '{what}, and the record gives only a highest value, so nothing is known of what the part held':
    '{what}; die Aufzeichnung gibt nur einen Höchstwert, über das vom Teil Gehaltene ist also nichts bekannt',
  'the load reached is known from below': 'die erreichte Belastung ist von unten bekannt',

  // Why there is no verdict
  'the rule of {limit} needs the expanded uncertainty U and the method states none':
    'die Regel zu {limit} braucht die erweiterte Messunsicherheit U, und das Verfahren gibt keine an',
  'a revision of the method states an uncertainty budget for {nameAsEntered}':
    'ein Ausgabestand des Verfahrens enthält ein Messunsicherheitsbudget für {nameAsEntered}',
  'the guard bands of {limit} leave no value that could be accepted':
    'die Schutzabstände zu {limit} lassen keinen Wert übrig, der angenommen werden könnte',
  'the uncertainty is small beside the distance of the two limits':
    'die Messunsicherheit ist klein gegenüber dem Abstand der beiden Grenzwerte',
  'the specimen held {value} and did not break there, while the limit asks for {range} with its guard band':
    'der Prüfling hielt {value} und brach dort nicht; der Grenzwert verlangt {range} zuzüglich Schutzabstand',
  'the specimen held {value} and did not break there, while the limit asks for {range}':
    'der Prüfling hielt {value} und brach dort nicht; der Grenzwert verlangt {range}',
  'a specimen is loaded until it breaks, or to {range} with its guard band':
    'ein Prüfling wird bis zum Bruch belastet oder bis {range} zuzüglich Schutzabstand',
  'a specimen is loaded until it breaks, or to {range}': 'ein Prüfling wird bis zum Bruch belastet oder bis {range}',
  'the value is known only as {value}, which lies on both sides of the limit of {range} with its guard band':
    'der Wert ist nur als {value} bekannt und liegt zu beiden Seiten des Grenzwerts {range} mit Schutzabstand',
  'the value is known only as {value}, which lies on both sides of the limit of {range}':
    'der Wert ist nur als {value} bekannt und liegt zu beiden Seiten des Grenzwerts {range}',
  'a specimen gives an exact value, or one known closely enough to lie on one side':
    'ein Prüfling liefert einen genauen Wert oder einen, der eng genug bekannt ist, um auf einer Seite zu liegen',
  'no uncertainty is stated of the value': 'zum Wert ist keine Messunsicherheit angegeben',
  'the value is known from one side only, or between two': 'der Wert ist nur einseitig oder zwischen zweien bekannt',
  'a specimen gives an exact value': 'ein Prüfling liefert einen genauen Wert',
  'the run is {validity}': 'der Versuch ist {validity}',
  'the run is {validity} ({reason}: {noteAsEntered})': 'der Versuch ist {validity} ({reason}: {noteAsEntered})',
  'the run is {validity} ({reason})': 'der Versuch ist {validity} ({reason})',
  'a valid run is made on another specimen drawn by the same rule':
    'ein gültiger Versuch wird an einem anderen, nach derselben Regel entnommenen Prüfling ausgeführt',
  'the run gives no {nameAsEntered}': 'der Versuch liefert kein Merkmal {nameAsEntered}',
  'the method gives {nameAsEntered}, or it is keyed for this run':
    'das Verfahren liefert {nameAsEntered}, oder es wird für diesen Versuch erfasst',
  'no examination of the specimen is recorded': 'keine Untersuchung des Prüflings ist erfasst',
  'a person examines the specimen and records what was found':
    'eine Person untersucht den Prüfling und erfasst den Befund',
  'above {value}': 'über {value}',
  'below {value}': 'unter {value}',

  // Which runs make the claim
  'void: the record was entered by mistake': 'hinfällig: die Aufzeichnung wurde irrtümlich erfasst',
  'specimen {specimen} is not of this lot': 'Prüfling {specimen} gehört nicht zu diesem Los',
  'invalid: {reason}: {noteAsEntered}': 'ungültig: {reason}: {noteAsEntered}',
  'invalid: {reason}': 'ungültig: {reason}',
  '{origin}: only specimens drawn at random speak for the lot':
    '{origin}: nur zufällig entnommene Prüflinge sprechen für das Los',
  'specimen {specimen} was loaded before, in run {run}: each test needs its own specimen':
    'Prüfling {specimen} wurde bereits belastet, in Versuch {run}: jede Prüfung braucht ihren eigenen Prüfling',
  'beyond the {specimens} planned': 'über die geplante Anzahl hinaus ({specimens})',
  'its file was refused: {detailAsEntered}': 'seine Datei wurde abgewiesen: {detailAsEntered}',
  'its validity is not decided yet': 'seine Gültigkeit ist noch nicht entschieden',

  // What must be known beside the numbers
  'External limit failed: {specimens} ({named}) do not conform to {limit}, basis {basis}. A failed external limit is never conceded in the claimed use.':
    'Externer Grenzwert verfehlt: {specimens} ({named}), Grenzwert {limit}, Grundlage {basis}. Ein verfehlter externer Grenzwert wird in der beanspruchten Verwendung nie nachgesehen.',
  'External limit failed: {specimens} ({named}) does not conform to {limit}, basis {basis}. A failed external limit is never conceded in the claimed use.':
    'Externer Grenzwert verfehlt: {specimens} ({named}), Grenzwert {limit}, Grundlage {basis}. Ein verfehlter externer Grenzwert wird in der beanspruchten Verwendung nie nachgesehen.',
  'Run {run} (specimen {specimen}) is valid and does not conform to {limit}, but makes no claim; the failure stands and must be dealt with.':
    'Versuch {run} (Prüfling {specimen}) ist gültig und hält den Grenzwert {limit} nicht ein, trägt aber zu keiner Aussage bei; der Ausfall bleibt bestehen und ist zu behandeln.',
  'Run {run} (specimen {specimen}) is not judged: its file was refused and is kept unread. {detailAsEntered}':
    'Versuch {run} (Prüfling {specimen}) ist nicht bewertet: seine Datei wurde abgewiesen und wird ungelesen aufbewahrt. „{detailAsEntered}“ (englisch)',
  'Run {run} (specimen {specimen}) is not judged: its file was refused and is kept unread.':
    'Versuch {run} (Prüfling {specimen}) ist nicht bewertet: seine Datei wurde abgewiesen und wird ungelesen aufbewahrt.',
  '{n} of {runs} are invalid: {named}.': '{n} von {runs}: ungültig ({named}).',
  '{n} of {runs} is invalid: {named}.': '{n} von {runs}: ungültig ({named}).',
  'Valid with deviation, and counted: {runsAsEntered}.': 'Gültig mit Abweichung und gezählt: {runsAsEntered}.',
  'Not drawn at random, shown and left out of every claim: {named}.':
    'Nicht zufällig entnommen, gezeigt und aus jeder Aussage ausgenommen: {named}.',
  'Line {line}: {runs} beyond the planned number ({named}), shown and left out: testing on until a bound looks good would accept bad lots too often.':
    'Zeile {line}: {runs} über die geplante Anzahl hinaus ({named}), gezeigt und ausgenommen: weiterzuprüfen, bis eine Grenze gut aussieht, würde schlechte Lose zu oft annehmen.',
  'Line {line}: other modes ({named}) on sound parts are counted as "at least"; this assumes that the modes act independently.':
    'Zeile {line}: andere Versagensarten ({named}) an unversehrten Teilen zählen als „mindestens“; das setzt voraus, dass die Versagensarten unabhängig voneinander wirken.',
  'The bound with every mode counted as a failure stands beside the claim.':
    'Die Grenze, bei der jede Versagensart als Ausfall zählt, steht neben der Aussage.',
  'Line {line}: counted as failures of the part because it was not found sound: {named}.':
    'Zeile {line}: als Ausfall des Teils gezählt, weil es nicht unversehrt vorgefunden wurde: {named}.',
  'Criterion {criterion}: a bound from a fitted distribution speaks of the process that made lot {lot}; that the lot has only {size} units does not enter.':
    'Kriterium {criterion}: eine Grenze aus einer angepassten Verteilung gilt für den Prozess, aus dem Los {lot} stammt; dass das Los nur {size} Einheiten hat, geht nicht ein.',
  'The lab did not draw the specimens: results apply to the sample as received, and that it was drawn at random is not known by the lab.':
    'Das Labor hat die Prüflinge nicht entnommen: die Ergebnisse gelten für die Stichprobe wie erhalten; ob sie zufällig entnommen wurde, ist dem Labor nicht bekannt.',
  'Examples the lab has yet to confirm against its own copy of the source: {named}.':
    'Beispiele, die das Labor noch an seinem eigenen Exemplar der Quelle zu bestätigen hat: {named}.',
  'Line {line}: valid run {run} did not conform, and {runs} that the plan did not ask for ({named}) conformed after it. The failure stands.':
    'Zeile {line}: der gültige Versuch {run} war nicht konform; danach waren konform, ohne dass der Prüfplan sie verlangte: {runs} ({named}). Der Ausfall bleibt bestehen.',

  // How a criterion was answered
  'Which runs make the claim?': 'Welche Versuche tragen die Aussage?',
  '{n} of {planned} planned: valid runs on specimens drawn at random and not loaded before, in the order recorded.':
    '{n} von {planned} geplanten: gültige Versuche an zufällig entnommenen und zuvor nicht belasteten Prüflingen, in der Reihenfolge ihrer Erfassung.',
  'Does each of them conform?': 'Ist jeder davon konform?',
  'Not conforming to {limit}: {named}.': 'Nicht konform zum Grenzwert {limit}: {named}.',
  '{n} of {runs} conform to {limit}.': '{n} von {runs} halten den Grenzwert {limit} ein.',
  'How often would a poor lot pass?': 'Wie oft würde ein schlechtes Los angenommen?',
  'No confidence is claimed. With {specimens} tested, {points}.':
    'Ein Vertrauensniveau wird nicht beansprucht. Geprüft: {specimens}; {points}.',
  'No confidence is claimed. {points}.': 'Ein Vertrauensniveau wird nicht beansprucht. {points}.',
  'a process with {share} not conforming passes with probability {chance}':
    'ein Prozess mit {share} nicht Konformen wird mit der Wahrscheinlichkeit {chance} angenommen',
  'a lot with {share} not conforming passes with probability {chance}':
    'ein Los mit {share} nicht Konformen wird mit der Wahrscheinlichkeit {chance} angenommen',
  'a process with {share} failing passes with probability {chance}':
    'ein Prozess mit {share} Ausfällen wird mit der Wahrscheinlichkeit {chance} angenommen',
  'a lot with {share} failing passes with probability {chance}':
    'ein Los mit {share} Ausfällen wird mit der Wahrscheinlichkeit {chance} angenommen',
  '{specimens} of the claim ({named}) do not conform to {limit}':
    '{specimens} der Aussage ({named}) halten den Grenzwert {limit} nicht ein',
  '{specimens} of the claim ({named}) does not conform to {limit}':
    '{specimens} der Aussage ({named}) hält den Grenzwert {limit} nicht ein',
  'none may fail, and {what}': 'keiner darf ausfallen, aber {what}',
  'How many of them fail?': 'Wie viele davon fallen aus?',
  '{n} of {runs} fail {limit} ({named})': '{n} von {runs} verfehlen den Grenzwert {limit} ({named})',
  '{n} of {runs} fail {limit}': '{n} von {runs} verfehlen den Grenzwert {limit}',
  'up to {accept} are accepted, from {reject} on the lot is not':
    'bis {accept} werden angenommen, ab {reject} wird das Los zurückgewiesen',
  '{specimens} of the claim ({named}) fail {limit}, and {reject} are too many':
    '{specimens} der Aussage ({named}) verfehlen den Grenzwert {limit}, und {reject} sind zu viele',
  '{failures} lie between {accept} and {reject}': '{failures} liegen zwischen {accept} und {reject}',
  'specimen {specimen} has no verdict: {because}': 'zu Prüfling {specimen} gibt es keine Bewertung: {because}',
  '{what}, and {specimens} likewise': '{what}; ebenso {specimens}',
  'run {run} of the claim gives no value: {because}': 'Versuch {run} der Aussage liefert keinen Wert: {because}',
  'the run is judged': 'der Versuch wird bewertet',
  'stage {stage} of {of} was declared for this': 'Stufe {stage} von {of} war dafür festgelegt',
  '{runs} of stage {stage} can be made': '{runs} der Stufe {stage} können ausgeführt werden',
  '{runs} recorded already can be read and decided': 'bereits erfasst und noch zu lesen und zu entscheiden: {runs}',
  '{runs} on specimens drawn at random can be made': '{runs} an zufällig entnommenen Prüflingen',
  '{first} and {runs} on specimens drawn at random can be made':
    '{first}, und {runs} an zufällig entnommenen Prüflingen',
  '{n} of {planned} planned valid runs make the claim':
    '{n} von {planned} geplanten gültigen Versuchen tragen die Aussage',
  'the plan asks for {n}, too few for a claim that needs {needed} survivors':
    'der Prüfplan verlangt {n}, zu wenige für eine Aussage, die {needed} Prüflinge ohne Ausfall braucht',
  '{method} rev. {revision} prints no bound on fewer than {least} specimens, and the claim has {n}':
    '{method} Rev. {revision} gibt unter {least} Prüflingen keine Grenze an, und die Aussage hat {n}',
  'the plan asks for at least {least} specimens': 'der Prüfplan verlangt mindestens {least} Prüflinge',

  // Tolerance bounds
  'a lower bound says what specimens hold, and {limit} is no limit of that kind':
    'eine untere Grenze sagt, was Prüflinge halten; {limit} ist kein solcher Grenzwert',
  'the criterion names an "at least" limit': 'das Kriterium nennt einen „mindestens“-Grenzwert',
  'How do values known from one side enter?': 'Wie gehen einseitig bekannte Werte ein?',
  'Other modes ({named}) on a sound part enter as at least the value reached; the modes are assumed to act independently.':
    'Andere Versagensarten ({named}) an einem unversehrten Teil gehen als „mindestens der erreichte Wert“ ein; vorausgesetzt wird, dass die Versagensarten unabhängig voneinander wirken.',
  'Every specimen broke at a value known exactly or between two.':
    'Jeder Prüfling brach bei einem genau oder zwischen zweien bekannten Wert.',
  '{specimens} held without breaking and enter as at least the value reached.':
    '{specimens} hielten ohne Bruch und gehen als „mindestens der erreichte Wert“ ein.',
  '{specimens} held without breaking and enters as at least the value reached.':
    '{specimens} hielt ohne Bruch und geht als „mindestens der erreichte Wert“ ein.',
  'What is the strength that {share} exceed, as best estimated?':
    'Welche Festigkeit übertreffen {share} nach bester Schätzung?',
  '{value}, {distribution} distribution (technique: {technique}).':
    '{value}, Verteilung: {distribution} (Verfahren: {technique}).',
  normal: 'Normalverteilung',
  lognormal: 'logarithmische Normalverteilung',
  Weibull: 'Weibull-Verteilung',
  weibull: 'Weibull-Verteilung',
  'distribution-free': 'verteilungsfrei',
  'What can be said of it with confidence?': 'Was lässt sich darüber mit dem Vertrauensniveau sagen?',
  'Assumed: {assumptions}.': 'Vorausgesetzt: {assumptions}.',
  'Does the bound clear the limit?': 'Liegt die Grenze über dem Grenzwert?',
  'Yes: it lies at or above {limit}. Measurement uncertainty is reported apart and not added.':
    'Ja: sie liegt auf oder über dem Grenzwert {limit}. Die Messunsicherheit ist getrennt angegeben und nicht zugeschlagen.',
  'No: it lies below {limit}. The planned number is complete, so more specimens cannot change this.':
    'Nein: sie liegt unter dem Grenzwert {limit}. Die geplante Anzahl ist vollständig, weitere Prüflinge können daran nichts ändern.',
  'Not at this look: it lies below {limit}. Another stage was declared before the test.':
    'Bei dieser Betrachtung nicht: sie liegt unter dem Grenzwert {limit}. Vor der Prüfung war eine weitere Stufe festgelegt.',
  'And if every mode counted as a failure?': 'Und wenn jede Versagensart als Ausfall zählte?',
  'The bound would be {bound}. It stands beside the claim and does not decide.':
    'Die Grenze läge bei {bound}. Sie steht neben der Aussage und entscheidet nicht.',
  'the lower bound, {bound}, lies below {limit}': 'die untere Grenze, {bound}, liegt unter dem Grenzwert {limit}',
  'At which confidence is the bound taken, so that all looks together keep what is claimed?':
    'Zu welchem Vertrauensniveau wird die Grenze genommen, damit alle Betrachtungen zusammen das beanspruchte einhalten?',
  'Looks after {sizes} specimens, each at {level} confidence, keep {confidence} together. Without this they would keep {unadjusted}.':
    'Betrachtungen nach {sizes} Prüflingen, jede zu einem Vertrauensniveau von {level}, halten zusammen {confidence} ein. Ohne dies wären es {unadjusted}.',
  'Do the earlier lots agree with this one?': 'Stimmen die früheren Lose mit diesem überein?',
  'Would the test have seen a difference that matters?':
    'Hätte der Test einen Unterschied erkannt, auf den es ankommt?',
  'Would a difference that matters have been seen?': 'Wäre ein Unterschied, auf den es ankommt, erkannt worden?',
  'no earlier lot was tested by this method revision':
    'kein früheres Los wurde nach diesem Ausgabestand des Verfahrens geprüft',
  'earlier lots are tested and evaluated': 'frühere Lose werden geprüft und ausgewertet',
  'values known from one side only cannot be ranked among others':
    'einseitig bekannte Werte lassen sich unter andere nicht einordnen',
  'every value is known exactly': 'jeder Wert ist genau bekannt',
  'a group has fewer than 2 values': 'eine Gruppe hat weniger als 2 Werte',
  'every lot has at least 2 values': 'jedes Los hat mindestens 2 Werte',
  'every lot has 2 values': 'jedes Los hat 2 Werte',
  'a lot has no scatter of its own': 'ein Los hat keine eigene Streuung',
  'lot {lot}: {because}': 'Los {lot}: {because}',
  'the lots could not be tested ({because})': 'die Lose konnten nicht verglichen werden ({because})',
  'all values of each lot are the same number': 'alle Werte jedes Loses sind dieselbe Zahl',
  'values are read finely enough to differ': 'Werte sind fein genug abgelesen, um sich zu unterscheiden',
  'a value of 0 or less cannot come from a {distribution} distribution':
    'ein Wert von 0 oder weniger kann nicht aus dieser Verteilung stammen ({distribution})',
  'the plan declares another distribution, or the value is found to be recorded wrongly':
    'der Prüfplan legt eine andere Verteilung fest, oder der Wert erweist sich als falsch erfasst',
  'the technique {technique} serves for comparison only': 'das Verfahren {technique} dient nur dem Vergleich',
  'the plan declares a distribution with an exact bound for this sample':
    'der Prüfplan legt eine Verteilung fest, die für diese Stichprobe eine exakte Grenze hat',

  // Zero failures
  'How many survivors does the claim need?': 'Wie viele Prüflinge ohne Ausfall braucht die Aussage?',
  '{specimens} without a failure, for {share} of the process with {confidence} confidence.':
    '{specimens} ohne Ausfall, für {share} des Prozesses bei einem Vertrauensniveau von {confidence}.',
  '{specimens} without a failure, for {share} of the lot of {size} with {confidence} confidence.':
    '{specimens} ohne Ausfall, für {share} des Loses von {size} bei einem Vertrauensniveau von {confidence}.',
  'What do the survivors show?': 'Was zeigen die Prüflinge ohne Ausfall?',
  '{survivors} cannot show it: {needed} are needed, and the planned number is complete':
    '{survivors} können es nicht zeigen: {needed} sind nötig, und die geplante Anzahl ist vollständig',
  '{survivors} of {needed} needed, and none failed': '{survivors} von {needed} nötigen, und keiner fiel aus',
  'How many survive the raised load?': 'Wie viele überstehen die erhöhte Belastung?',
  '{n} of {runs} survive {load}, {ratio} times {limit}.':
    '{n} von {runs} überstehen {load}, das {ratio}-Fache des Grenzwerts {limit}.',
  'none may fail at {load}, and {specimens} ({named}) do':
    'keiner darf bei {load} ausfallen, aber {specimens} ({named}) fallen aus',
  'none may fail at {load}, and {specimens} ({named}) does':
    'keiner darf bei {load} ausfallen, aber {specimens} ({named}) fällt aus',
  'What do the survivors show at the limit?': 'Was zeigen die Prüflinge ohne Ausfall am Grenzwert?',
  'Assumed: Weibull with shape {shape} ({sourceAsEntered}).':
    'Vorausgesetzt: Weibull-Verteilung mit Formparameter {shape} ({sourceAsEntered}).',
  'And if the shape were lower?': 'Und wenn der Formparameter kleiner wäre?',
  'At shape {shape} the same survivors show {share}': 'Beim Formparameter {shape} zeigen dieselben Prüflinge {share}',
  'at shape {shape} the same survivors show {share}': 'beim Formparameter {shape} zeigen dieselben Prüflinge {share}',
  'This stands beside the claim and does not decide.': 'Das steht neben der Aussage und entscheidet nicht.',
  '{points}. This stands beside the claim and does not decide.':
    '{points}. Das steht neben der Aussage und entscheidet nicht.',
  'the survivors show {share} so far': 'die Prüflinge ohne Ausfall zeigen bisher {share}',
  '{survivors} show {shown} at shape {shape}, less than the {share} claimed, and the planned number is complete':
    '{survivors} zeigen {shown} beim Formparameter {shape}, weniger als die beanspruchten {share}, und die geplante Anzahl ist vollständig',

  // Means and series of strikes
  'Between what does the mean of the population lie?': 'Wozwischen liegt der Mittelwert der Grundgesamtheit?',
  'Above {lower} and below {upper}, each with {confidence} confidence; the mean of the {n} is {mean}. Assumed: values independent and normal.':
    'Über {lower} und unter {upper}, jeweils bei einem Vertrauensniveau von {confidence}; der Mittelwert der {n} ist {mean}. Vorausgesetzt: Werte unabhängig und normalverteilt.',
  'Does it lie within the limit?': 'Liegt er innerhalb des Grenzwerts?',
  'Yes: between {low} and {high} all of {limit} is kept.':
    'Ja: zwischen {low} und {high} ist der Grenzwert {limit} überall eingehalten.',
  'No: {limit} is not surely kept by a mean between {low} and {high}. The planned number is complete, so more specimens cannot change this.':
    'Nein: ein Mittelwert zwischen {low} und {high} hält den Grenzwert {limit} nicht sicher ein. Die geplante Anzahl ist vollständig, weitere Prüflinge können daran nichts ändern.',
  'the mean may lie anywhere between {low} and {high}, which is not within {limit}':
    'der Mittelwert kann überall zwischen {low} und {high} liegen, das ist nicht innerhalb des Grenzwerts {limit}',
  '{n} of {of} values are known from one side only or between two, so they have no mean':
    '{n} von {of} Werten sind nur einseitig oder zwischen zweien bekannt und haben keinen Mittelwert',
  'a lower bound on the load that breaks specimens is compared with an "at least" limit':
    'eine untere Grenze der Belastung, die Prüflinge bricht, wird mit einem „mindestens“-Grenzwert verglichen',
  'What was struck, and what broke?': 'Was wurde beaufschlagt, und was brach?',
  '{specimens} at {levels}; {broken} broke': '{specimens} bei {levels}; {broken} brachen',
  'At what load does half of the population break?': 'Bei welcher Belastung bricht die Hälfte der Grundgesamtheit?',
  'At what load does {share} of the population break?': 'Bei welcher Belastung brechen {share} der Grundgesamtheit?',
  'About {estimate}; with {confidence} confidence at or above {bound}. Series like this one were simulated {replicates} times at each of {n} scatters, and at least {reached} of them had a limit at or below the true load. Assumed: the load at which a specimen breaks is normal, specimens are independent and struck once.':
    'Etwa {estimate}; bei einem Vertrauensniveau von {confidence} auf oder über {bound}. Reihen wie diese wurden zu jeder von {n} Streuungen {replicates}-mal simuliert; mindestens {reached} davon hatten eine Grenze auf oder unter der wahren Belastung. Vorausgesetzt: die Belastung, bei der ein Prüfling bricht, ist normalverteilt; die Prüflinge sind unabhängig und werden einmal beaufschlagt.',
  'the lower limit of that load, {bound}, lies below {limit}':
    'die untere Grenze dieser Belastung, {bound}, liegt unter dem Grenzwert {limit}',
  'calibrated profile limit of the response curve': 'kalibrierte Profilgrenze der Wirkungskurve',

  'specimen {specimen} was not struck once at one level: its value is neither "at least" nor "at most"':
    'Prüfling {specimen} wurde nicht einmal auf einer Stufe getroffen: sein Wert ist weder „mindestens“ noch „höchstens“',
  'each specimen of the claim is struck once': 'jeder Prüfling der Aussage wird einmal getroffen',
  'specimens are struck at the levels that the plan names': 'Prüflinge werden auf den Stufen des Prüfplans getroffen',
  'specimen {specimen} was struck at {value}, which is no whole number of steps from the first strike':
    'Prüfling {specimen} wurde bei {value} getroffen, das ist keine ganze Zahl von Schritten vom ersten Schlag',
  'specimens are struck at the levels that the staircase asks for':
    'Prüflinge werden auf den Stufen getroffen, die das Treppenverfahren verlangt',
  'the staircase was left at specimen {specimen}: each level follows from what the specimen before did':
    'das Treppenverfahren wurde bei Prüfling {specimen} verlassen: jede Stufe folgt aus dem Verhalten des vorigen Prüflings',
  'the levels are those that the staircase asks for, or the plan names levels instead':
    'die Stufen sind die des Treppenverfahrens, oder der Prüfplan nennt stattdessen Stufen',
  'breaking loads normal, steps of one standard deviation from near the median, each specimen struck once, specimens drawn at random; a lot is judged by a limit calibrated for its own series, which lies somewhat lower, so that it passes at most so often':
    'normalverteilte Bruchbelastungen, Schritte von einer Standardabweichung ab etwa dem Median, jeder Prüfling einmal getroffen, zufällig entnommene Prüflinge; bewertet wird ein Los nach einer für seine eigene Reihe kalibrierten Grenze, die etwas tiefer liegt, sodass es höchstens so häufig besteht',

  // Techniques and assumptions
  'strengths come from one {distribution} population, as the plan declares':
    'die Festigkeiten stammen aus einer Grundgesamtheit ({distribution}), wie der Prüfplan festlegt',
  'noncentral t': 'nichtzentrale t-Verteilung',
  'conditional Weibull': 'bedingte Weibull-Verteilung',
  'order statistic': 'Ranggröße',
  'order statistics': 'Ranggrößen',
  conditional: 'bedingt',
  'specimens are independent and drawn at random from the population':
    'Prüflinge sind unabhängig und zufällig aus der Grundgesamtheit entnommen',
  'specimens are independent and drawn at random': 'Prüflinge sind unabhängig und zufällig entnommen',
  'specimens drawn at random': 'zufällig entnommene Prüflinge',
  'the distribution was declared before the test': 'die Verteilung wurde vor der Prüfung festgelegt',
  'no distribution is assumed': 'keine Verteilung wird vorausgesetzt',
  'strength is normal': 'die Festigkeit ist normalverteilt',
  'strength follows a normal distribution': 'die Festigkeit folgt einer Normalverteilung',
  'strength follows a lognormal distribution': 'die Festigkeit folgt einer logarithmischen Normalverteilung',
  'strength follows a two-parameter Weibull distribution':
    'die Festigkeit folgt einer zweiparametrigen Weibull-Verteilung',
  'the logarithm of strength is normal': 'der Logarithmus der Festigkeit ist normalverteilt',
  'the specimens still to be tested are drawn at random as those tested were':
    'die noch zu prüfenden Prüflinge werden wie die geprüften zufällig entnommen',
  'specimens fail independently, each as likely, by what was seen so far and Jeffreys’ prior':
    'Prüflinge fallen unabhängig und gleich wahrscheinlich aus, nach dem bisher Gesehenen und der Priorverteilung nach Jeffreys',
  '{distribution} strengths, complete samples, specimens drawn at random':
    'Festigkeiten: {distribution}, vollständige Stichproben, zufällig entnommene Prüflinge',
  'normal values, specimens drawn at random': 'normalverteilte Werte, zufällig entnommene Prüflinge',
  'Weibull strengths of shape {shape} or more, failures as at the limit, specimens drawn at random':
    'Weibull-verteilte Festigkeiten mit Formparameter {shape} oder mehr, Ausfälle wie am Grenzwert, zufällig entnommene Prüflinge',

  // Why numbers are missing
  'there are no values': 'es gibt keine Werte',
  'at least 1 value is given': 'mindestens 1 Wert liegt vor',
  'a single value says nothing about scatter': 'ein einzelner Wert sagt nichts über die Streuung',
  'at least 2 values are given': 'mindestens 2 Werte liegen vor',
  'the values do not differ': 'die Werte unterscheiden sich nicht',
  'strengths known only as at most or between have no rank on the plot':
    'nur als höchstens oder zwischen bekannte Festigkeiten haben keinen Rang im Wahrscheinlichkeitsnetz',
  'every strength is known exactly or as at least': 'jede Festigkeit ist genau oder als mindestens bekannt',
  'a value of 0 or less has no place on a logarithmic scale':
    'ein Wert von 0 oder weniger hat auf einer logarithmischen Skala keinen Platz',
  'the value is found to be wrong': 'der Wert erweist sich als falsch',
  'no valid run gives a value': 'kein gültiger Versuch liefert einen Wert',
  'a run is made, read and found valid': 'ein Versuch wird ausgeführt, gelesen und für gültig befunden',
  'no criterion of the line has a curve': 'kein Kriterium der Zeile hat eine Kurve',
  'a criterion can be weighed by the share below its limit':
    'ein Kriterium lässt sich nach dem Anteil unter seinem Grenzwert abschätzen',
  'the criteria stand against several limits, and a lot may be bad by one and good by another':
    'die Kriterien beziehen sich auf mehrere Grenzwerte, und ein Los kann nach einem schlecht und nach einem anderen gut sein',
  'the criteria stand against one limit': 'die Kriterien beziehen sich auf einen Grenzwert',
  'a criterion that alone would be enough cannot be weighed':
    'ein Kriterium, das allein genügen würde, lässt sich nicht abschätzen',
  'every criterion can be weighed': 'jedes Kriterium lässt sich abschätzen',
  'the method prints no bound on fewer than {least} specimens, and {n} are looked at':
    'das Verfahren gibt unter {least} Prüflingen keine Grenze an, und {n} werden betrachtet',
  'the line plans at least {least}': 'die Zeile plant mindestens {least}',
  '{n} specimens can never meet it, even if none fails: {needed} are needed':
    '{n} Prüflinge können es nie erfüllen, auch wenn keiner ausfällt: {needed} sind nötig',
  'the line plans {needed}, or less is claimed': 'die Zeile plant {needed}, oder es wird weniger beansprucht',
  '{n} specimens cannot come from a lot of {size}': '{n} Prüflinge können nicht aus einem Los von {size} stammen',
  'the line plans fewer, or the lot is larger': 'die Zeile plant weniger, oder das Los ist größer',
  'how often a lot passes depends on where the levels lie about the loads at which it breaks, which the plan does not say':
    'wie häufig ein Los besteht, hängt davon ab, wie die Stufen zu den Bruchbelastungen liegen; das sagt der Prüfplan nicht',
  'the series is simulated at a mean and scatter expected':
    'die Reihe wird mit erwartetem Mittelwert und erwarteter Streuung simuliert',
  'photos asked for: {asked}, present: {present}': 'verlangte Fotos: {asked}, vorhanden: {present}',

  // Moments of records
  '{share} of the peak': '{share} des Höchstwerts',
} as const;
