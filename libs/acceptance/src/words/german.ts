/** Every sentence that this room words for documents, in English as it is named and in German. */
export const GERMAN = {
  // Values, limits and rules
  'at least {value}': 'mindestens {value}',
  'at most {value}': 'höchstens {value}',
  'between {lower} and {upper}': 'zwischen {lower} und {upper}',
  'none of {signs}': 'keines der Anzeichen {signs}',
  '{limit} rev. {revision}': '{limit} Rev. {revision}',
  '{names} and {rest} more': '{names} und {rest} weitere',
  'the limit of {range} ({name})': '{name} ({range})',
  'accepted when none of the signs is found; looked for {method}, which finds {detects}':
    'angenommen, wenn keines der Anzeichen gefunden wird; Untersuchung: {method}; damit wird erkannt: {detects}',
  'accepted when the result is at or above the limit':
    'angenommen, wenn das Ergebnis auf oder über dem Grenzwert liegt',
  'accepted when the result is at or below the limit':
    'angenommen, wenn das Ergebnis auf oder unter dem Grenzwert liegt',
  'accepted when the result lies at or between the limits':
    'angenommen, wenn das Ergebnis auf oder zwischen den Grenzwerten liegt',
  'four outcomes: conforms when the result lies inside the limit by {band} or more, conforms conditionally when inside by less, does not conform conditionally when outside by less than {band}, does not conform when further outside':
    'vier Ausgänge: konform, wenn das Ergebnis um {band} oder mehr innerhalb des Grenzwerts liegt; bedingt konform, wenn es um weniger innerhalb liegt; bedingt nicht konform, wenn es um weniger als {band} außerhalb liegt; nicht konform, wenn es weiter außerhalb liegt',
  'accepted when the result minus {band} is at or above the limit':
    'angenommen, wenn das Ergebnis abzüglich {band} auf oder über dem Grenzwert liegt',
  'accepted when the result plus {band} is at or below the limit':
    'angenommen, wenn das Ergebnis zuzüglich {band} auf oder unter dem Grenzwert liegt',
  'accepted when the result lies inside both limits by {band} or more':
    'angenommen, wenn das Ergebnis um {band} oder mehr innerhalb beider Grenzwerte liegt',

  // Chances and shares
  never: 'nie',
  always: 'immer',
  none: 'keine',
  'less than {share}': 'weniger als {share}',
  'more than {share}': 'mehr als {share}',

  // Outcomes
  conforms: 'konform',
  'conforms conditionally': 'bedingt konform',
  'does not conform conditionally': 'bedingt nicht konform',
  'does not conform': 'nicht konform',
  'not evaluated': 'nicht ausgewertet',
  met: 'erfüllt',
  'not met': 'nicht erfüllt',
  'not yet decidable': 'noch nicht entscheidbar',
  'meets the plan': 'erfüllt den Prüfplan',
  'does not meet the plan': 'erfüllt den Prüfplan nicht',
  undecided: 'nicht entschieden',

  // Claims
  lot: 'Los',
  process: 'Prozess',
  'of the lot': 'des Loses',
  'of the process': 'des Prozesses',
  'a normal distribution of strength': 'eine Normalverteilung der Festigkeit',
  'a lognormal distribution of strength': 'eine logarithmische Normalverteilung der Festigkeit',
  'a Weibull distribution of strength': 'eine Weibull-Verteilung der Festigkeit',
  'no distribution of strength': 'keine Verteilung der Festigkeit',
  'Every specimen tested conforms to {limit}. No confidence is claimed.':
    'Jeder geprüfte Prüfling hält den Grenzwert {limit} ein. Ein Vertrauensniveau wird nicht beansprucht.',
  'At least {share} {population} holds {limit}, with {confidence} confidence, assuming {distribution}.':
    'Mindestens {share} {population} halten {limit}, bei einem Vertrauensniveau von {confidence}; vorausgesetzt wird {distribution}.',
  'At least {share} {population} conforms to {limit}, with {confidence} confidence, shown by specimens of which none fails.':
    'Mindestens {share} {population} halten den Grenzwert {limit} ein, bei einem Vertrauensniveau von {confidence}, gezeigt an Prüflingen, von denen keiner ausfällt.',
  'At least {share} {population} conforms to {limit}, with {confidence} confidence, shown by specimens loaded to {ratio} times the limit, of which none fails, assuming a Weibull shape of {shape} or more.':
    'Mindestens {share} {population} halten den Grenzwert {limit} ein, bei einem Vertrauensniveau von {confidence}, gezeigt an Prüflingen, die bis zum {ratio}-Fachen des Grenzwerts belastet werden und von denen keiner ausfällt; vorausgesetzt wird ein Weibull-Formparameter von {shape} oder mehr.',
  'No more specimens fail {limit} than each stage allows: {stages}. No confidence is claimed.':
    'Es verfehlen nicht mehr Prüflinge den Grenzwert {limit}, als jede Stufe zulässt: {stages}. Ein Vertrauensniveau wird nicht beansprucht.',
  'after stage {stage} {accept} are accepted and {reject} rejected':
    'nach Stufe {stage} Annahme bis {accept}, Rückweisung ab {reject}',
  'after stage {stage} {accept} is accepted and {reject} rejected':
    'nach Stufe {stage} Annahme bis {accept}, Rückweisung ab {reject}',
  'At most {specimens} tested fail {limit}. No confidence is claimed.':
    'Höchstens {specimens} der geprüften Stichprobe verfehlen den Grenzwert {limit}. Ein Vertrauensniveau wird nicht beansprucht.',
  'At most {specimens} tested fails {limit}. No confidence is claimed.':
    'Höchstens {specimens} der geprüften Stichprobe verfehlt den Grenzwert {limit}. Ein Vertrauensniveau wird nicht beansprucht.',
  half: 'die Hälfte',
  'at levels of {levels} {unit}': 'auf den Stufen {levels} {unit}',
  'by a staircase in steps of {step} {unit}': 'nach dem Treppenverfahren in Schritten von {step} {unit}',
  'The load at which {share} {population} breaks meets {limit}, with {confidence} confidence, each specimen struck once, {how}, assuming a normal distribution over the levels.':
    'Die Belastung, bei der {share} {population} bricht, hält den Grenzwert {limit} ein, bei einem Vertrauensniveau von {confidence}; jeder Prüfling wird einmal beaufschlagt, {how}; vorausgesetzt wird eine Normalverteilung über die Stufen.',
  'The mean {population} lies within {limit}, with {confidence} confidence.':
    'Der Mittelwert {population} liegt innerhalb des Grenzwerts {limit}, bei einem Vertrauensniveau von {confidence}.',
  'At least {share} {population} holds {bound} or more, with {confidence} confidence ({specimens}, {failures} broken).':
    'Mindestens {share} {population} halten {bound} oder mehr, bei einem Vertrauensniveau von {confidence} ({specimens}, davon {failures} gebrochen).',
  'At least {share} {population} holds {range}, with {confidence} confidence ({specimens}, none failed).':
    'Mindestens {share} {population} halten {range}, bei einem Vertrauensniveau von {confidence} ({specimens}, keiner ausgefallen).',

  // Stages, outliers, earlier lots
  'Stage {stage} of {of}: {made} of {specimens} in the claim':
    'Stufe {stage} von {of}: {made} von {specimens} in der Stichprobe der Aussage',
  '{made}; it is not complete, so nothing is looked at yet.':
    '{made}; sie ist nicht vollständig, deshalb wird noch nichts betrachtet.',
  'bound {bound}': 'Grenze {bound}',
  'at {confidence} confidence at this look': 'bei einem Vertrauensniveau von {confidence} auf dieser Stufe',
  '{criterion} is {outcome}': '{criterion} ist {outcome}',
  'criterion {criterion}: bound {all} with it, and none without it, since {because}':
    'Kriterium {criterion}: Grenze {all} mit ihm und keine ohne ihn ({because})',
  'criterion {criterion}: bound {all} with it, {without} without it':
    'Kriterium {criterion}: Grenze {all} mit ihm, {without} ohne ihn',
  lower: 'tiefer',
  higher: 'höher',
  'Specimen {specimen} (run {run}), {value}, lies {side} than the scatter of the others explains (statistic {statistic}, critical {critical} at the {level} level; Grubbs 1969). It is to be looked into, and stays in the claim.':
    'Prüfling {specimen} (Versuch {run}), {value}, liegt {side}, als die Streuung der übrigen erklärt (Prüfgröße {statistic}, kritischer Wert {critical} zum Signifikanzniveau {level}; Grubbs 1969). Er ist zu untersuchen und bleibt in der Stichprobe der Aussage.',
  'With and without, {effects}.': 'Mit und ohne ihn: {effects}.',
  'evaluation {evaluation}, ': 'Auswertung {evaluation}, ',
  'no value that can be ranked': 'kein Wert, der sich einordnen lässt',
  '{n} values': '{n} Werte',
  'There is none': 'Es gibt keines',
  'Earlier: {lots}': 'Frühere Lose: {lots}',
  'the test does not tell the lots apart at the {level} level: the bound rests on all {lots} together':
    'der Test unterscheidet die Lose zum Signifikanzniveau {level} nicht: die Grenze beruht auf allen ({lots}) zusammen',
  'the test tells the lots apart at the {level} level: the bound rests on this lot alone':
    'der Test unterscheidet die Lose zum Signifikanzniveau {level}: die Grenze beruht allein auf diesem Los',
  '{why}: the bound rests on this lot alone': '{why}: die Grenze beruht allein auf diesem Los',
  'Not evaluated: {because}.': 'Nicht ausgewertet: {because}.',
  'A mean off by {share} would be seen with probability {probability} ({replicates} simulated sets, normal, seed {seed}).':
    'Ein um {share} verschobener Mittelwert würde mit der Wahrscheinlichkeit {probability} erkannt ({replicates} simulierte Sätze, normalverteilt, Startwert {seed}).',
  '{earlier} Would a difference that matters have been seen? {power}':
    '{earlier} Wäre ein Unterschied, auf den es ankommt, erkannt worden? {power}',
  'up to {lots} of the same method revision, where the {test} test does not tell them apart at the {level} level; a shift of the mean by {shift} would matter':
    'bis zu {lots} desselben Ausgabestands des Verfahrens, sofern der Test ({test}) sie zum Signifikanzniveau {level} nicht unterscheidet; eine Verschiebung des Mittelwerts um {shift} wäre von Belang',

  // Plans
  'It speaks for the units of this lot alone, in this use: {use}':
    'Sie gilt allein für die Einheiten dieses Loses, bei dieser Verwendung: {use}',
  'It speaks for the process that made the lot, in this use: {use}':
    'Sie gilt für den Prozess, aus dem das Los stammt, bei dieser Verwendung: {use}',
  'Failure modes: {modes}': 'Versagensarten: {modes}',
  'Values known from one side only: {censoring}': 'Einseitig bekannte Werte: {censoring}',
  'Pooling with earlier lots: {pooling}': 'Zusammenfassung mit früheren Losen: {pooling}',
  '{specimens}, by {method} rev. {revision}{stages}.': '{specimens}, nach {method} Rev. {revision}{stages}.',
  ', looked at once, when all are tested': ', einmal betrachtet, wenn alle geprüft sind',
  ', in {n} stages of {adds} and {last}: a later one is made only where those before it settle nothing':
    ', in {n} Stufen von {adds} und {last}: eine spätere folgt nur, wenn die früheren nichts entscheiden',
  'Drawn beside them and kept unbroken: {specimens}.': 'Zusätzlich entnommen und ungeprüft aufbewahrt: {specimens}.',
  'Tested beside the claim as witnesses: {specimens}.': 'Neben der Aussage als Beleg geprüft: {specimens}.',
  ' or ': ' oder ',
  'Takes specimens that survived line {lines}.': 'Verwendet Prüflinge, die Zeile {lines} überstanden haben.',
  'Limit: {limit}, {title}': 'Grenzwert: {limit}, {title}',
  'Limit {limit}, which is not there.': 'Grenzwert {limit}, der nicht vorliegt.',
  'Criterion {criterion}: {statement}': 'Kriterium {criterion}: {statement}',
  'The Weibull shape of {shape} rests on: {source} What is shown at shapes of {shapes} is printed beside it. A failure mode other than {modes} ends the demonstration.':
    'Der Weibull-Formparameter {shape} beruht auf: {source} Was sich bei den Formparametern {shapes} ergibt, steht daneben. Eine andere Versagensart als {modes} beendet den Nachweis.',
  'Any one of the criteria is enough; together they may accept wrongly in at most {risk} of such lots.':
    'Eines der Kriterien genügt; zusammen dürfen sie höchstens {risk} solcher Lose zu Unrecht annehmen.',
  'All criteria must be met.': 'Alle Kriterien müssen erfüllt sein.',

  // Risks of plans
  'With {specimens}': 'Stichprobe {specimens}',
  ' and {failures} allowed': ' und {failures} zulässig',
  'a lot': 'ein Los',
  'a lot of {size}': 'ein Los von {size}',
  'It claims no confidence. {test}, {lot} of which {points}.':
    'Ein Vertrauensniveau wird nicht beansprucht. {test}: {lot}, von dem {points}.',
  '{share} does not conform passes with {chance} chance':
    '{share} nicht konform sind, wird mit einer Wahrscheinlichkeit von {chance} angenommen',
  '{share} with {chance}': '{share} nicht konform sind, mit {chance}',
  ', of which ': ', eines, von dem ',
  ' Over its {looks} looks the schedule keeps {keeps}; with the stated confidence at each look it would keep {unadjusted}.':
    ' Über alle {looks} Betrachtungen hält der Ablauf ein Vertrauensniveau von {keeps}; mit dem genannten Niveau bei jeder einzelnen wären es {unadjusted}.',
  'A process of which {share} lies below the limit, just what the claim denies, passes with {chance} chance.{schedule}':
    'Ein Prozess, von dem {share} unter dem Grenzwert liegen (gerade das, was die Aussage ausschließt), wird mit einer Wahrscheinlichkeit von {chance} angenommen.{schedule}',
  'A lot of {size} of which {share} lies below the limit, just what the claim denies, passes with {chance} chance.{schedule}':
    'Ein Los von {size}, von dem {share} unter dem Grenzwert liegen (gerade das, was die Aussage ausschließt), wird mit einer Wahrscheinlichkeit von {chance} angenommen.{schedule}',
  'A process whose mean lies just at the limit passes with {chance} chance{less}, however its values scatter; of single specimens below it nothing is said.':
    'Ein Prozess, dessen Mittelwert gerade auf dem Grenzwert liegt, wird mit einer Wahrscheinlichkeit von {chance}{less} angenommen, wie auch immer seine Werte streuen; über einzelne Prüflinge darunter wird nichts ausgesagt.',
  ' or less': ' oder weniger',
  'All criteria must be met, and they stand against several limits: a lot that is bad by one of them passes the line no more often than it passes that criterion.':
    'Alle Kriterien müssen erfüllt sein, und sie beziehen sich auf mehrere Grenzwerte: ein Los, das nach einem davon schlecht ist, besteht die Zeile nicht häufiger, als es dieses Kriterium besteht.',
  ' A lot of which {share} lies below the limit passes with {chance} chance.':
    ' Ein Los, von dem {share} unter dem Grenzwert liegen, besteht mit einer Wahrscheinlichkeit von {chance}.',
  ' A lot of which {share} lies below the limit passes with a chance between {least} and {most}.':
    ' Ein Los, von dem {share} unter dem Grenzwert liegen, besteht mit einer Wahrscheinlichkeit zwischen {least} und {most}.',
  'The line has one criterion.{between}': 'Die Zeile hat ein Kriterium.{between}',
  'Both criteria must be met on the same specimens, so a lot passes no more often than it passes the hardest of them.{between}':
    'Beide Kriterien müssen an denselben Prüflingen erfüllt sein; ein Los besteht daher nicht häufiger als nach dem strengsten von ihnen.{between}',
  'All {n} criteria must be met on the same specimens, so a lot passes no more often than it passes the hardest of them.{between}':
    'Alle {n} Kriterien müssen an denselben Prüflingen erfüllt sein; ein Los besteht daher nicht häufiger als nach dem strengsten von ihnen.{between}',
  'Any of {n} criteria is enough, so a lot passes at least as often as by the easiest of them.{between}':
    'Eines von {n} Kriterien genügt; ein Los besteht daher mindestens so häufig wie nach dem leichtesten von ihnen.{between}',
  'The plan has one line, and what it risks is what that line risks.':
    'Der Prüfplan hat eine Zeile; sein Risiko ist das dieser Zeile.',
  'Both lines must be met, each on its own specimens: a lot that is bad in what one line is about passes the plan no more often than it passes that line.':
    'Beide Zeilen müssen erfüllt sein, jede an eigenen Prüflingen: ein Los, das in der Sache einer Zeile schlecht ist, besteht den Prüfplan nicht häufiger als diese Zeile.',
  'All {n} lines must be met, each on its own specimens: a lot that is bad in what one line is about passes the plan no more often than it passes that line.':
    'Alle {n} Zeilen müssen erfüllt sein, jede an eigenen Prüflingen: ein Los, das in der Sache einer Zeile schlecht ist, besteht den Prüfplan nicht häufiger als diese Zeile.',
  '{several} Of {criteria} nothing can be said, for the reasons given.':
    '{several} Nicht abschätzbar aus den genannten Gründen: {criteria}.',
  'The {runs} still to be made would meet line {line} with probability {probability}, judged by the {made} in the claim. A forecast decides nothing.':
    'Noch auszuführen: {runs}; nach den {made} Versuchen der Aussage wäre Zeile {line} damit mit der Wahrscheinlichkeit {probability} erfüllt. Eine Vorhersage entscheidet nichts.',
  'The {runs} still to be made or decided would meet line {line} with probability {probability}, judged by the {made} in the claim. A forecast decides nothing.':
    'Noch auszuführen oder zu entscheiden: {runs}; nach den {made} Versuchen der Aussage wäre Zeile {line} damit mit der Wahrscheinlichkeit {probability} erfüllt. Eine Vorhersage entscheidet nichts.',
  'above {probability}': 'über {probability}',
  'below {probability}': 'unter {probability}',

  // The lot in one sentence
  'Lot {lot} meets plan {plan}: {met}.': 'Los {lot} erfüllt den Prüfplan {plan}: {met}.',
  'Lot {lot} does not meet plan {plan}: {reasons}.': 'Los {lot} erfüllt den Prüfplan {plan} nicht: {reasons}.',
  'Lot {lot} is undecided under plan {plan}: {reasons}.':
    'Über Los {lot} ist nach dem Prüfplan {plan} nicht entschieden: {reasons}.',
  'its one criterion is met': 'sein einziges Kriterium ist erfüllt',
  'both criteria are met': 'beide Kriterien sind erfüllt',
  'all {n} criteria are met': 'alle {n} Kriterien sind erfüllt',
  'criterion {criterion} is {outcome}: {because}': 'Kriterium {criterion} ist {outcome}: {because}',
} as const;

/** What is counted: one and several. */
export const GERMAN_NOUNS = {
  specimen: ['Prüfling', 'Prüflinge'],
  'broken specimen': ['gebrochener Prüfling', 'gebrochene Prüflinge'],
  'other specimen': ['weiterer Prüfling', 'weitere Prüflinge'],
  run: ['Versuch', 'Versuche'],
  'valid run': ['gültiger Versuch', 'gültige Versuche'],
  'more valid run': ['weiterer gültiger Versuch', 'weitere gültige Versuche'],
  'planned run': ['geplanter Versuch', 'geplante Versuche'],
  lot: ['Los', 'Lose'],
  'earlier lot': ['früheres Los', 'frühere Lose'],
  failure: ['Ausfall', 'Ausfälle'],
  survivor: ['Prüfling ohne Ausfall', 'Prüflinge ohne Ausfall'],
  criterion: ['Kriterium', 'Kriterien'],
  check: ['Kontrolle', 'Kontrollen'],
  sign: ['Anzeichen', 'Anzeichen'],
  strength: ['Festigkeit', 'Festigkeiten'],
} as const satisfies Record<string, readonly [one: string, several: string]>;
