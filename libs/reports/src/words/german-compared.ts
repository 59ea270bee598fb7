const UNDECIDED = 'ist nicht entscheidbar';

type Forms = Record<string, string>;

/** Every form of one list with every of another. */
function crossed<A, B>(
  some: readonly A[],
  others: readonly B[],
  form: (one: A, other: B) => readonly [string, string],
): Forms {
  return Object.fromEntries(some.flatMap((one) => others.map((other) => form(one, other))));
}

/** Groups are called as this program calls items and reference, or by titles that people gave them. */
function namedEitherWay(forms: Forms): Forms {
  const asEntered = (text: string) =>
    text.replaceAll('{second}', '{secondAsEntered}').replaceAll('{first}', '{firstAsEntered}');
  return { ...forms, ...Object.fromEntries(Object.entries(forms).map((form) => form.map(asEntered))) };
}

/** Agreement, of what, and beyond what no difference was found. */
function noDifferenceForms(): Forms {
  const starts = [
    ['Consistent: No', 'Übereinstimmend: zwischen'],
    ['No', 'Zwischen'],
  ] as const;
  const beyond = [
    ['', ''],
    ['beyond the prediction bounds ', 'über die Vorhersageschranken hinaus '],
    ['beyond the margins declared ', 'über die festgelegten Spannen hinaus '],
    [
      'beyond the prediction bounds or the margins declared ',
      'über die Vorhersageschranken oder die festgelegten Spannen hinaus ',
    ],
  ] as const;
  const form = (what: string, other: string, german: string) =>
    crossed(starts, beyond, ([start, startGerman], [bounds, boundsGerman]) => [
      `${start} difference ${bounds}was found between ${what} and ${other}, in {examined} examined`,
      `${startGerman} ${what} und ${german} wurde kein Unterschied ${boundsGerman}gefunden; untersucht: {examined}`,
    ]);
  return {
    ...form('{what}', 'the reference', 'der Referenz'),
    ...form('{secondAsEntered}', '{firstAsEntered}', '{firstAsEntered}'),
  };
}

/** What was seen on whom, found by whom. */
function seenForms(): Forms {
  const whom = [
    ['item {itemAsEntered}', 'Gegenstand {itemAsEntered}'],
    ['items {itemsAsEntered}', 'den Gegenständen {itemsAsEntered}'],
    ['specimen {itemAsEntered}', 'Prüfling {itemAsEntered}'],
    ['{some} specimens of {secondAsEntered}', '{some} Prüflingen von {secondAsEntered}'],
  ] as const;
  const foundBy = [
    ['', ''],
    [' as the customer found', ', wie der Auftraggeber fand'],
    [' as {providerAsEntered} found', ', wie {providerAsEntered} fand'],
  ] as const;
  const differs = [
    'differs from {units} looked at ({kindsAsEntered})',
    'unterscheidet sich von {units} ({kindsAsEntered})',
  ];
  const said = [
    [
      `${differs[0]}; no build variant recorded for the period has this ({listAsEntered})`,
      `${differs[1]}; keine für die Zeit aufgezeichnete Bauvariante hat dies ({listAsEntered})`,
    ],
    [
      `${differs[0]}, and is inconclusive: nobody looked through the build records for variants of the period`,
      `${differs[1]} und ${UNDECIDED}: niemand hat die Fertigungsunterlagen auf Varianten der Zeit durchgesehen`,
    ],
    ['was seen alike on {n} of {units} looked at', 'wurde ebenso gesehen an {n} von {units}, die betrachtet wurden'],
    ['is a build variant recorded for the period', 'ist eine für die Zeit aufgezeichnete Bauvariante'],
    [
      'is inconclusive: no reference unit was looked at for it',
      `${UNDECIDED}: keine Referenzeinheit wurde daraufhin betrachtet`,
    ],
    ['was read in more than one way, and is inconclusive', `wurde verschieden gelesen und ${UNDECIDED}`],
  ] as const;
  return Object.assign(
    {},
    ...whom.map(([of, an]) => ({
      ...crossed(foundBy, said, ([by, durch], [what, was]) => [
        `{titleAsEntered} of ${of}, {seenAsEntered}${by}, ${what}`,
        `{titleAsEntered} an ${an}, {seenAsEntered}${durch}, ${was}`,
      ]),
      [`{titleAsEntered} of ${of} was not looked at`]: `{titleAsEntered} wurde an ${an} nicht betrachtet`,
      [`{titleAsEntered} of ${of} is not compared; it is set aside: {becauseAsEntered}`]: `{titleAsEntered} an ${an} wird nicht verglichen; ausgenommen: {becauseAsEntered}`,
    })),
  );
}

/** Whether a difference lies within a margin, on which side that counts, and by which numbers. */
function marginForms(): Forms {
  const groups = '{second} (n = {n}, {lots}) and {first} (n = {m}, {otherLots})';
  const gruppen = '{second} (n = {n}, {lots}) und {first} (n = {m}, {otherLots})';
  const within = [
    ['by less than the margin of {low} to {high}', 'um weniger als die Spanne {low} bis {high}'],
    [
      'by less than the margin of {margin} where they lie below',
      'um weniger als die Spanne {margin}, wo sie darunter liegen',
    ],
    [
      'by less than the margin of {margin} where they lie above',
      'um weniger als die Spanne {margin}, wo sie darüber liegen',
    ],
  ] as const;
  const numbers = [
    [
      'difference {difference}, {level} limits {lower} to {upper}, p = {p}',
      'Unterschied {difference}, Grenzen zu {level} {lower} bis {upper}, p = {p}',
    ],
    [
      'p = {p}, by the pairs surely ordered, since some values are known from one side only',
      'p = {p}, nach den sicher geordneten Paaren, da manche Werte nur von einer Seite bekannt sind',
    ],
  ] as const;
  return {
    ...crossed(within, numbers, ([by, um], [shown, zahlen]) => [
      `{titleAsEntered}: ${groups} are shown to differ ${by} (${shown})`,
      `{titleAsEntered}: von ${gruppen} ist gezeigt, dass sie sich unterscheiden ${um} (${zahlen})`,
    ]),
    ...crossed(within, numbers, ([by, um], [shown, zahlen]) => [
      `{titleAsEntered}: ${groups} differ by more than the margin; they are shown not to differ ${by} (${shown})`,
      `{titleAsEntered}: ${gruppen} unterscheiden sich um mehr als die Spanne; gezeigt ist, dass sie sich nicht unterscheiden ${um} (${zahlen})`,
    ]),
    ...crossed(within, numbers, ([by, um], [shown, zahlen]) => [
      `{titleAsEntered}: inconclusive; ${groups} are not shown to differ ${by} (${shown})`,
      `{titleAsEntered}: nicht entscheidbar; von ${gruppen} ist nicht gezeigt, dass sie sich unterscheiden ${um} (${zahlen})`,
    ]),
  };
}

/**
 * Sentences that a comparison keeps in English, and the same in German. A hole whose name ends in `AsEntered` holds what a
 * person wrote; any other holds numbers, names, or words that are known here too.
 */
export const GERMAN_COMPARED: Forms = {
  // Of whom
  'the reference': 'der Referenz',
  'the items': 'den Gegenständen',
  'the {n} items': 'den {n} Gegenständen',
  'item {itemAsEntered}': 'Gegenstand {itemAsEntered}',
  '{n} of {items} ({itemsAsEntered})': '{n} von {items} ({itemsAsEntered})',
  '{n} items': '{n} Gegenständen',
  '{n} reference units': '{n} Referenzeinheiten',
  '1 reference unit': 'einer Referenzeinheit',
  'the {n} characteristics and the {m} features': 'die {n} Merkmale und die {m} Eigenschaften',
  'the {n} characteristics and the 1 feature': 'die {n} Merkmale und eine Eigenschaft',
  'the 1 characteristic and the {m} features': 'ein Merkmal und die {m} Eigenschaften',
  'the 1 characteristic and the 1 feature': 'ein Merkmal und eine Eigenschaft',
  'the {n} characteristics': 'die {n} Merkmale',
  'the 1 characteristic': 'ein Merkmal',
  'the {m} features': 'die {m} Eigenschaften',
  'the 1 feature': 'eine Eigenschaft',

  // Conclusions
  'Not consistent, physical: {who} differs from the reference in what was seen':
    'Nicht übereinstimmend, körperlich: {who} unterscheidet sich von der Referenz in dem, was gesehen wurde',
  'Not consistent, physical: {who} differ from the reference in what was seen':
    'Nicht übereinstimmend, körperlich: {who} unterscheiden sich von der Referenz in dem, was gesehen wurde',
  'Not consistent, measured: {who} differs from the reference in what was measured':
    'Nicht übereinstimmend, gemessen: {who} unterscheidet sich von der Referenz in dem, was gemessen wurde',
  'Not consistent, measured: {who} differ from the reference in what was measured':
    'Nicht übereinstimmend, gemessen: {who} unterscheiden sich von der Referenz in dem, was gemessen wurde',
  'Inconclusive: of {who} it could not be decided how well it agrees with the reference':
    'Nicht entscheidbar: bei {who} ließ sich nicht entscheiden, wie gut er mit der Referenz übereinstimmt',
  'Inconclusive: of {who} it could not be decided how well they agree with the reference':
    'Nicht entscheidbar: bei {who} ließ sich nicht entscheiden, wie gut sie mit der Referenz übereinstimmen',
  'No comparison: custody, condition or what happened before prevents comparison of every item':
    'Kein Vergleich: Verwahrung, Zustand oder was vorher geschah, verhindert bei jedem Gegenstand den Vergleich',
  ...noDifferenceForms(),
  'This does not show common origin': 'Dies zeigt keine gemeinsame Herkunft',
  '{titlesAsEntered} was not examined on it: it took another test':
    '{titlesAsEntered} wurde an ihm nicht untersucht: er wurde anders geprüft',
  '{titlesAsEntered} were not examined on it: it took another test':
    '{titlesAsEntered} wurden an ihm nicht untersucht: er wurde anders geprüft',
  'Item {itemAsEntered} is not compared: {becauseAsEntered}':
    'Gegenstand {itemAsEntered} wird nicht verglichen: {becauseAsEntered}',

  // What was seen
  ...seenForms(),
  'all {n} reference units': 'allen {n} betrachteten Referenzeinheiten',
  'the only reference unit': 'der einzigen betrachteten Referenzeinheit',
  'all {n} specimens of {groupAsEntered}': 'allen {n} betrachteten Prüflingen von {groupAsEntered}',
  'the only specimen of {groupAsEntered}': 'dem einzigen betrachteten Prüfling von {groupAsEntered}',
  '{n} specimens of {groupAsEntered}': '{n} Prüflingen von {groupAsEntered}',
  '1 specimen of {groupAsEntered}': 'einem Prüfling von {groupAsEntered}',
  'no specimen of {groupAsEntered}': 'keinem Prüfling von {groupAsEntered}',
  '{titleAsEntered} was looked at on no specimen of {groupAsEntered}':
    '{titleAsEntered} wurde an keinem Prüfling von {groupAsEntered} betrachtet',

  // Prediction
  '{titleAsEntered} of item {itemAsEntered}, {value}, lies below the {level} prediction bound {bound} of the reference (n = {n}, {lots})':
    '{titleAsEntered} von Gegenstand {itemAsEntered}, {value}, liegt unter der Vorhersageschranke zu {level}, {bound}, der Referenz (n = {n}, {lots})',
  '{titleAsEntered} of item {itemAsEntered}, {value}, lies above the {level} prediction bound {bound} of the reference (n = {n}, {lots})':
    '{titleAsEntered} von Gegenstand {itemAsEntered}, {value}, liegt über der Vorhersageschranke zu {level}, {bound}, der Referenz (n = {n}, {lots})',
  '{titleAsEntered} of item {itemAsEntered}, {value}, does not lie below the {level} prediction bound {bound} of the reference (n = {n}, {lots})':
    '{titleAsEntered} von Gegenstand {itemAsEntered}, {value}, liegt nicht unter der Vorhersageschranke zu {level}, {bound}, der Referenz (n = {n}, {lots})',
  '{titleAsEntered} of item {itemAsEntered}, {value}, does not lie above the {level} prediction bound {bound} of the reference (n = {n}, {lots})':
    '{titleAsEntered} von Gegenstand {itemAsEntered}, {value}, liegt nicht über der Vorhersageschranke zu {level}, {bound}, der Referenz (n = {n}, {lots})',
  '{titleAsEntered} of item {itemAsEntered}, {value}, lies within the {level} prediction bounds {lower} to {upper} of the reference (n = {n}, {lots})':
    '{titleAsEntered} von Gegenstand {itemAsEntered}, {value}, liegt innerhalb der Vorhersageschranken zu {level}, {lower} bis {upper}, der Referenz (n = {n}, {lots})',
  '{titleAsEntered} of item {itemAsEntered}, {value}, is inconclusive: it lies within the prediction bounds, but {but}': `{titleAsEntered} von Gegenstand {itemAsEntered}, {value}, ${UNDECIDED}: innerhalb der Vorhersageschranken, aber {but}`,
  '{titleAsEntered} of item {itemAsEntered}, {value}, is inconclusive: what is known of it reaches to both sides of the {level} prediction bound {bound}': `{titleAsEntered} von Gegenstand {itemAsEntered}, {value}, ${UNDECIDED}: was davon bekannt ist, reicht auf beide Seiten der Vorhersageschranke zu {level}, {bound}`,
  '{titleAsEntered} of item {itemAsEntered}, {value}, is inconclusive: what is known of it reaches to both sides of the {level} prediction bounds {lower} to {upper}': `{titleAsEntered} von Gegenstand {itemAsEntered}, {value}, ${UNDECIDED}: was davon bekannt ist, reicht über die Vorhersageschranken zu {level} hinaus, {lower} bis {upper}`,
  '{titleAsEntered} of item {itemAsEntered}, {value}, is inconclusive: {because}': `{titleAsEntered} von Gegenstand {itemAsEntered}, {value}, ${UNDECIDED}: {because}`,
  '{titleAsEntered}: the mean of the {n} items, {value}, lies below the {level} prediction bound {bound} of the reference (n = {m}, {lots})':
    '{titleAsEntered}: der Mittelwert der {n} Gegenstände, {value}, liegt unter der Vorhersageschranke zu {level}, {bound}, der Referenz (n = {m}, {lots})',
  '{titleAsEntered}: the mean of the {n} items, {value}, lies above the {level} prediction bound {bound} of the reference (n = {m}, {lots})':
    '{titleAsEntered}: der Mittelwert der {n} Gegenstände, {value}, liegt über der Vorhersageschranke zu {level}, {bound}, der Referenz (n = {m}, {lots})',
  '{titleAsEntered}: the mean of the {n} items, {value}, lies within the {level} prediction bounds {lower} to {upper} of the reference (n = {m}, {lots})':
    '{titleAsEntered}: der Mittelwert der {n} Gegenstände, {value}, liegt innerhalb der Vorhersageschranken zu {level}, {lower} bis {upper}, der Referenz (n = {m}, {lots})',
  '{titleAsEntered}: the mean of the {n} items, {value}, does not lie below the {level} prediction bound {bound} of the reference (n = {m}, {lots})':
    '{titleAsEntered}: der Mittelwert der {n} Gegenstände, {value}, liegt nicht unter der Vorhersageschranke zu {level}, {bound}, der Referenz (n = {m}, {lots})',
  '{titleAsEntered}: the mean of the {n} items, {value}, does not lie above the {level} prediction bound {bound} of the reference (n = {m}, {lots})':
    '{titleAsEntered}: der Mittelwert der {n} Gegenstände, {value}, liegt nicht über der Vorhersageschranke zu {level}, {bound}, der Referenz (n = {m}, {lots})',
  '{titleAsEntered}: the mean of the {n} items, {value}, is inconclusive: it lies within the prediction bounds, but {but}': `{titleAsEntered}: der Mittelwert der {n} Gegenstände, {value}, ${UNDECIDED}: innerhalb der Vorhersageschranken, aber {but}`,
  '{titleAsEntered}: the mean of the {n} items, {value}, is inconclusive: what is known of it reaches to both sides of the {level} prediction bound {bound}': `{titleAsEntered}: der Mittelwert der {n} Gegenstände, {value}, ${UNDECIDED}: was davon bekannt ist, reicht auf beide Seiten der Vorhersageschranke zu {level}, {bound}`,
  '{titleAsEntered}: the mean of the {n} items, {value}, is inconclusive: what is known of it reaches to both sides of the {level} prediction bounds {lower} to {upper}': `{titleAsEntered}: der Mittelwert der {n} Gegenstände, {value}, ${UNDECIDED}: was davon bekannt ist, reicht über die Vorhersageschranken zu {level} hinaus, {lower} bis {upper}`,
  '{titleAsEntered}: the mean of the {n} items, {value}, is inconclusive: {because}': `{titleAsEntered}: der Mittelwert der {n} Gegenstände, {value}, ${UNDECIDED}: {because}`,
  'bounded on neither side': 'auf keiner Seite begrenzt',
  '{titleAsEntered}: none of the {n} items measured lies below the {level} prediction bound {bound} of the reference (n = {m}, {lots})':
    '{titleAsEntered}: keiner der {n} gemessenen Gegenstände liegt unter der Vorhersageschranke zu {level}, {bound}, der Referenz (n = {m}, {lots})',
  '{titleAsEntered}: none of the {n} items measured lies above the {level} prediction bound {bound} of the reference (n = {m}, {lots})':
    '{titleAsEntered}: keiner der {n} gemessenen Gegenstände liegt über der Vorhersageschranke zu {level}, {bound}, der Referenz (n = {m}, {lots})',
  '{titleAsEntered}: all {n} items measured lie within the {level} prediction bounds {lower} to {upper} of the reference (n = {m}, {lots})':
    '{titleAsEntered}: alle {n} gemessenen Gegenstände liegen innerhalb der Vorhersageschranken zu {level}, {lower} bis {upper}, der Referenz (n = {m}, {lots})',
  'The same is found of {n} more of the {m} items': 'Dasselbe gilt für {n} weitere der {m} Gegenstände',
  'A difference of {difference} or more would have been found with a chance of {chance} at the {level} level':
    'Ein Unterschied von {difference} oder mehr wäre mit einer Wahrscheinlichkeit von {chance} gefunden worden, auf dem Niveau {level}',
  'Which difference would have been found is not known: {because}':
    'Welcher Unterschied gefunden worden wäre, ist nicht bekannt: {because}',
  'whether a difference of {matters}, which would matter, could have been shown is not known':
    'ob sich ein Unterschied von {matters}, auf den es ankäme, hätte zeigen lassen, ist nicht bekannt',
  'the smallest difference that could be shown, {smallest}, is larger than the {matters} that would matter':
    'der kleinste Unterschied, der sich zeigen ließ, {smallest}, ist größer als der, auf den es ankäme: {matters}',

  // Why nothing was decided
  '{titleAsEntered}: inconclusive, because {because}': '{titleAsEntered}: nicht entscheidbar, denn: {because}',
  'It could be decided if {possibleIf}': 'Entscheidbar wäre es unter dieser Bedingung: {possibleIf}',
  'the reference values come from {lots}, which do not tell how lots scatter':
    'die Referenzwerte stammen von zu wenigen Losen ({lots}), die nicht sagen, wie Lose streuen',
  'units of at least {n} lots are tested': 'Einheiten von mindestens {n} Losen werden geprüft',
  'all reference values are the same number': 'alle Referenzwerte sind dieselbe Zahl',
  'values are read finely enough to differ': 'Werte werden fein genug abgelesen, um sich zu unterscheiden',
  'only {n} reference values are known exactly': 'nur {n} Referenzwerte sind genau bekannt',
  'there is no reference': 'es gibt keine Referenz',
  'none of {units} of the reference gave a value': 'keine der Referenzeinheiten gab einen Wert ({units})',
  'units of the reference are tested under the declared method revision':
    'Einheiten der Referenz werden nach dem festgelegten Stand des Verfahrens geprüft',
  'no value of the items is there': 'es gibt keinen Wert der Gegenstände',
  'no value of item {itemAsEntered} is there': 'es gibt keinen Wert von Gegenstand {itemAsEntered}',
  'a valid run under the declared method revision gives one':
    'ein gültiger Versuch nach dem festgelegten Stand des Verfahrens gibt einen',
  'of a mix of modes no single difference can be told':
    'bei einer Mischung von Versagensarten lässt sich kein einzelner Unterschied nennen',
  'one mode is declared as a characteristic of its own': 'eine Versagensart wird als eigenes Merkmal festgelegt',
  'lots are declared alike, and the test tells them apart (p = {p}, k-sample Anderson-Darling at {level})':
    'Lose sind als gleich festgelegt, und der Test unterscheidet sie (p = {p}, Anderson-Darling für mehrere Stichproben zu {level})',
  'lots are declared to vary, in a comparison of its own':
    'Lose werden als verschieden festgelegt, in einem eigenen Vergleich',
  'lot means are compared, in a comparison of its own':
    'Mittelwerte von Losen werden verglichen, in einem eigenen Vergleich',
  '{n} units': '{n} Einheiten',
  'none of {units} of {groupAsEntered} gave a value':
    'keiner der Prüflinge von {groupAsEntered} gab einen Wert ({units})',
  'units of {groupAsEntered} are tested under the declared method revision':
    'Prüflinge von {groupAsEntered} werden nach dem festgelegten Stand des Verfahrens geprüft',
  'no value of {groupAsEntered} is there': 'es gibt keinen Wert von {groupAsEntered}',
  'a value beyond all {n} reference units has a chance of {p} where nothing differs, and the level is {level}':
    'ein Wert jenseits aller {n} Referenzeinheiten hat, wo nichts verschieden ist, die Wahrscheinlichkeit {p}, und das Niveau ist {level}',
  'a value beyond all {n} lots has a chance of {p} where nothing differs, and the level is {level}':
    'ein Wert jenseits aller {n} Lose hat, wo nichts verschieden ist, die Wahrscheinlichkeit {p}, und das Niveau ist {level}',
  'there are at least {n} reference units': 'es gibt mindestens {n} Referenzeinheiten',
  'there are at least {n} reference lots': 'es gibt mindestens {n} Lose der Referenz',
  'the reference value that would be the bound is known from one side only':
    'der Referenzwert, der die Schranke wäre, ist nur von einer Seite bekannt',
  'it is known on both': 'er ist von beiden bekannt',
  'orders say nothing of a mean': 'Reihenfolgen sagen nichts über einen Mittelwert',
  'each item is compared by itself': 'jeder Gegenstand wird für sich verglichen',
  'an uncertainty between rigs cannot be added where no distribution is assumed':
    'eine Unsicherheit zwischen Prüfständen lässt sich nicht hinzunehmen, wo keine Verteilung angenommen ist',
  'items and reference are tested on one rig, or the tool names a distribution':
    'Gegenstände und Referenz werden auf einem Prüfstand geprüft, oder das Werkzeug nennt eine Verteilung',
  'without a distribution it is not known how far a true difference moves values past others':
    'ohne Verteilung ist nicht bekannt, wie weit ein wirklicher Unterschied Werte an anderen vorbeirückt',
  'the tool names a distribution': 'das Werkzeug nennt eine Verteilung',
  'lots of the reference scatter so that the bound lies beyond anything that could be measured':
    'Lose der Referenz streuen so, dass die Schranke jenseits alles Messbaren liegt',
  'more lots are tested, or the confidence is lower':
    'mehr Lose werden geprüft, oder das Vertrauensniveau ist niedriger',
  'a level of {level} is finer than {n} simulated comparisons can tell':
    'ein Niveau von {level} ist feiner, als {n} simulierte Vergleiche unterscheiden',
  'fewer characteristics are declared, or the confidence is lower':
    'weniger Merkmale werden festgelegt, oder das Vertrauensniveau ist niedriger',
  'at least 3 units are taken to their break': 'mindestens 3 Einheiten werden bis zum Bruch geprüft',
  'a value at or below 0 has no place in a {distribution} distribution':
    'ein Wert von 0 oder darunter hat keinen Platz in einer Verteilung dieser Art ({distribution})',
  'a reference value at or below 0 has no place in a {distribution} distribution':
    'ein Referenzwert von 0 oder darunter hat keinen Platz in einer Verteilung dieser Art ({distribution})',
  'the values are above 0, or the tool names a normal distribution':
    'die Werte liegen über 0, oder das Werkzeug nennt eine Normalverteilung',
  'all are above 0, or the tool names a normal distribution':
    'alle liegen über 0, oder das Werkzeug nennt eine Normalverteilung',
  'reference values known as "at least" end at different loads, or others broke beyond, and the {distribution} prediction is calibrated only for one load at which the rig ends every test':
    'als „mindestens“ bekannte Referenzwerte enden bei verschiedenen Lasten, oder andere brachen erst darüber, und die Vorhersage ({distribution}) ist nur für eine Last kalibriert, bei der der Prüfstand jeden Versuch beendet',
  'the tool is distribution-free, which honours them as they are':
    'das Werkzeug ist verteilungsfrei und nimmt sie, wie sie sind',
  'some reference values are known as "at most" or between two numbers, and the {distribution} prediction takes none of those':
    'manche Referenzwerte sind als „höchstens“ oder zwischen zwei Zahlen bekannt, und die Vorhersage ({distribution}) nimmt keine solchen',
  'they are read exactly, or the tool is distribution-free, which honours them':
    'sie werden genau abgelesen, oder das Werkzeug ist verteilungsfrei und nimmt sie, wie sie sind',
  '{n} of {m} reference values are known as "at least", which no simulated reference showed often enough to be judged by':
    '{n} von {m} Referenzwerten sind als „mindestens“ bekannt, was keine simulierte Referenz oft genug zeigte, um danach zu urteilen',
  'more of the reference is taken to its break, or the tool is distribution-free, which honours such values as they are':
    'mehr von der Referenz wird bis zum Bruch geprüft, oder das Werkzeug ist verteilungsfrei und nimmt solche Werte, wie sie sind',
  'no simulated reference showed what was seen often enough':
    'keine simulierte Referenz zeigte oft genug, was gesehen wurde',
  'more units are taken to their break': 'mehr Einheiten werden bis zum Bruch geprüft',
  'a group of fewer than 2 values has no scatter': 'eine Gruppe von weniger als 2 Werten hat keine Streuung',
  'both groups have at least 2 values': 'beide Gruppen haben mindestens 2 Werte',
  'within both groups all values are the same number': 'in beiden Gruppen sind alle Werte dieselbe Zahl',
  'all values are the same number': 'alle Werte sind dieselbe Zahl',
  'all units fall into one category, so no shares can differ':
    'alle Einheiten fallen in eine Klasse, so dass sich keine Anteile unterscheiden können',
  'units fall into 2 categories': 'Einheiten fallen in 2 Klassen',
  'lot means are compared, and there are {n} lots against {m}':
    'Losmittelwerte werden verglichen, und es sind {n} gegen {m} Lose',
  'both sides have at least 2 lots': 'beide Seiten haben mindestens 2 Lose',
  'some values are known from one side only, and a test of means takes exact values':
    'manche Werte sind nur von einer Seite bekannt, und ein Test von Mittelwerten nimmt genaue Werte',
  'the tool is Mann-Whitney or permutation, which then count only the pairs that are surely ordered':
    'das Werkzeug ist Mann-Whitney oder Permutation, die dann nur die sicher geordneten Paare zählen',
  'no order of so few values is called out at this level':
    'keine Reihenfolge so weniger Werte wird auf diesem Niveau als Unterschied genannt',
  'no shift, however large, is called out at this level':
    'keine noch so große Verschiebung wird auf diesem Niveau als Unterschied genannt',
  'even all {n} differences together reach no confidence of {number}':
    'selbst alle {n} Differenzen zusammen erreichen kein Vertrauensniveau von {number}',
  'fewer than 5 values tell nothing of how others would scatter':
    'weniger als 5 Werte sagen nichts darüber, wie andere streuten',
  'groups[{n}] has a single value': 'Gruppe {n} hat nur einen Wert',
  'every group has at least 2 values': 'jede Gruppe hat mindestens 2 Werte',
  'lots are declared alike, and whether they are cannot be tested: {because}':
    'Lose sind als gleich festgelegt, und ob sie es sind, lässt sich nicht prüfen: {because}',
  'there are more than {n} tables with these totals': 'es gibt mehr als {n} Tafeln mit diesen Summen',
  'categories are fewer, or rare ones are put together beforehand':
    'es sind weniger Klassen, oder seltene werden vorher zusammengelegt',
  'more specimens are tested': 'mehr Prüflinge werden geprüft',
  'more specimens are tested, or the confidence is lower':
    'mehr Prüflinge werden geprüft, oder das Vertrauensniveau ist niedriger',
  'more specimens are tested, or the level is higher': 'mehr Prüflinge werden geprüft, oder das Niveau ist höher',
  'the groups are too large to be drawn anew': 'die Gruppen sind zu groß, um sie neu zu ziehen',
  'the tool is Welch, which serves large groups': 'das Werkzeug ist Welch, das großen Gruppen dient',

  // Two groups
  ...namedEitherWay({
    '{titleAsEntered}: no difference was found between {second} (n = {n}, {lots}) and {first} (n = {m}, {otherLots}) at the {level} level ({tests}); {by}':
      '{titleAsEntered}: zwischen {second} (n = {n}, {lots}) und {first} (n = {m}, {otherLots}) wurde auf dem Niveau {level} kein Unterschied gefunden ({tests}); {by}',
    '{titleAsEntered}: values of {second} (n = {n}, {lots}) tend to lie lower than those of {first} (n = {m}, {otherLots}) at the {level} level ({tests}); {by}':
      '{titleAsEntered}: Werte von {second} (n = {n}, {lots}) liegen auf dem Niveau {level} eher niedriger als die von {first} (n = {m}, {otherLots}) ({tests}); {by}',
    '{titleAsEntered}: values of {second} (n = {n}, {lots}) tend to lie higher than those of {first} (n = {m}, {otherLots}) at the {level} level ({tests}); {by}':
      '{titleAsEntered}: Werte von {second} (n = {n}, {lots}) liegen auf dem Niveau {level} eher höher als die von {first} (n = {m}, {otherLots}) ({tests}); {by}',
    '{titleAsEntered}: inconclusive between {second} (n = {n}, {lots}) and {first} (n = {m}, {otherLots}); no difference was found ({tests}; {by}), but {but}':
      '{titleAsEntered}: nicht entscheidbar zwischen {second} (n = {n}, {lots}) und {first} (n = {m}, {otherLots}); kein Unterschied wurde gefunden ({tests}; {by}), aber {but}',
    '{titleAsEntered}: inconclusive between {second} (n = {n}, {lots}) and {first} (n = {m}, {otherLots}), because even the most extreme order of so few values has a chance of {least}, and the level is {level} ({tests}; {by})':
      '{titleAsEntered}: nicht entscheidbar zwischen {second} (n = {n}, {lots}) und {first} (n = {m}, {otherLots}), denn selbst die äußerste Reihenfolge so weniger Werte hat die Wahrscheinlichkeit {least}, und das Niveau ist {level} ({tests}; {by})',
    ...marginForms(),
    'May specimens of {first} be compared one by one?': 'Dürfen Prüflinge von {first} einzeln verglichen werden?',
    'specimens of {first} are compared one by one, and the test tells their lots apart (p = {p}, k-sample Anderson-Darling at {level})':
      'Prüflinge von {first} werden einzeln verglichen, und der Test unterscheidet ihre Lose (p = {p}, Anderson-Darling für mehrere Stichproben zu {level})',
    'Of {second} (n = {n}, {lots}): {modesAsEntered}; of {first} (n = {m}, {otherLots}): {otherModesAsEntered}':
      'Von {second} (n = {n}, {lots}): {modesAsEntered}; von {first} (n = {m}, {otherLots}): {otherModesAsEntered}',
  }),
  'No comparison: {secondAsEntered} and {firstAsEntered} could not be compared':
    'Kein Vergleich: {secondAsEntered} und {firstAsEntered} ließen sich nicht vergleichen',
  'Inconclusive: {secondAsEntered} and {firstAsEntered} could not be told to agree or to differ in {titlesAsEntered}':
    'Nicht entscheidbar: ob {secondAsEntered} und {firstAsEntered} übereinstimmen oder sich unterscheiden, ließ sich nicht sagen, in: {titlesAsEntered}',
  'Not consistent, measured: {secondAsEntered} and {firstAsEntered} differ in {titlesAsEntered}':
    'Nicht übereinstimmend, gemessen: {secondAsEntered} und {firstAsEntered} unterscheiden sich in: {titlesAsEntered}',
  'Not consistent, physical: {secondAsEntered} and {firstAsEntered} differ in {titlesAsEntered}':
    'Nicht übereinstimmend, körperlich: {secondAsEntered} und {firstAsEntered} unterscheiden sich in: {titlesAsEntered}',
  '{test}, p = {p}': '{test}, p = {p}',
  'Mann-Whitney test': 'Mann-Whitney-Test',
  'Welch test of means': 'Welch-Test der Mittelwerte',
  'Permutation test of means': 'Permutationstest der Mittelwerte',
  "Permutation test by Gehan's scores, since some values are known from one side only":
    'Permutationstest nach Gehans Rängen, da manche Werte nur von einer Seite bekannt sind',
  "Rank test by Gehan's scores, since some values are known from one side only":
    'Rangtest nach Gehans Rängen, da manche Werte nur von einer Seite bekannt sind',
  'difference {difference}, {level} limits {lower} to {upper}':
    'Unterschied {difference}, Grenzen zu {level} {lower} bis {upper}',
  'difference {difference}, without limits: {because}': 'Unterschied {difference}, ohne Grenzen: {because}',
  'by how much is not told, since some values are known from one side only':
    'um wie viel, wird nicht gesagt, da manche Werte nur von einer Seite bekannt sind',
  'the power of this test hangs on a distribution, and none is declared':
    'die Trennschärfe dieses Tests hängt an einer Verteilung, und keine ist festgelegt',
  'the tool is Welch, or Mann-Whitney with values known exactly':
    'das Werkzeug ist Welch, oder Mann-Whitney mit genau bekannten Werten',
  'Could the difference between the groups (by specimens) come from chance alone?':
    'Könnte der Unterschied der Gruppen (nach Prüflingen) allein vom Zufall kommen?',
  'Could the difference between the groups (by lot means) come from chance alone?':
    'Könnte der Unterschied der Gruppen (nach Losmittelwerten) allein vom Zufall kommen?',
  '{test}: p = {p} on the side declared (below)': '{test}: p = {p} auf der festgelegten Seite (nach unten)',
  '{test}: p = {p} on the side declared (above)': '{test}: p = {p} auf der festgelegten Seite (nach oben)',
  '{test}: p = {p} on the side declared (either)': '{test}: p = {p} auf der festgelegten Seite (nach beiden)',
  'By how much do they differ?': 'Um wie viel unterscheiden sie sich?',
  'Is the difference surely within the margin declared?':
    'Liegt der Unterschied sicher innerhalb der festgelegten Spanne?',

  // Failure modes
  '{titleAsEntered}: no difference in the mix of failure modes was found at the {level} level (exact test, p = {p})':
    '{titleAsEntered}: auf dem Niveau {level} wurde kein Unterschied in der Mischung der Versagensarten gefunden (exakter Test, p = {p})',
  '{titleAsEntered}: the mix of failure modes differs at the {level} level (exact test, p = {p})':
    '{titleAsEntered}: die Mischung der Versagensarten unterscheidet sich auf dem Niveau {level} (exakter Test, p = {p})',

  // How it was computed
  'To which level is this p held?': 'An welchem Niveau wird dieses p gemessen?',
  'Holm over all {k} declared: level {level}, p = {p}': 'Nach Holm über alle {k} festgelegten: Niveau {level}, p = {p}',
  'Holm over all {k} declared: level {level}': 'Nach Holm über alle {k} festgelegten: Niveau {level}',
  'Bonferroni over all {k} declared: level {level}, p = {p}':
    'Nach Bonferroni über alle {k} festgelegten: Niveau {level}, p = {p}',
  'Bonferroni over all {k} declared: level {level}': 'Nach Bonferroni über alle {k} festgelegten: Niveau {level}',
  'No correction: level {level}, p = {p}': 'Keine Korrektur: Niveau {level}, p = {p}',
  'No correction: level {level}': 'Keine Korrektur: Niveau {level}',
  'not evaluated, it counts with p = 1': 'nicht bewertet, es zählt mit p = 1',
  'Where does the reference lie, and how does it scatter?': 'Wo liegt die Referenz, und wie streut sie?',
  'Centre {centre}, {n} values of {m} lots': 'Mitte {centre}, {n} Werte aus {m} Losen',
  'Centre {centre}, {n} values taken for one population': 'Mitte {centre}, {n} Werte als eine Gesamtheit genommen',
  '{n} known as "at least" stand at the load where the rig ended them':
    '{n} als „mindestens“ bekannte stehen bei der Last, bei der der Prüfstand sie beendete',
  'How far may a future value of the same kind lie from that centre?':
    'Wie weit darf ein künftiger Wert gleicher Art von dieser Mitte liegen?',
  'Standard deviation {sd}, with {df} degrees of freedom': 'Standardabweichung {sd}, mit {df} Freiheitsgraden',
  'Standard deviation {sd} (of the natural logarithm), with {df} degrees of freedom':
    'Standardabweichung {sd} (des natürlichen Logarithmus), mit {df} Freiheitsgraden',
  'How often would units of the same kind lie so far off?': 'Wie oft lägen Einheiten gleicher Art so weit entfernt?',
  'How often would units of the same kind lie so far out?': 'Wie oft lägen Einheiten gleicher Art so weit außen?',
  'Lots may vary, so each speaks with one unit':
    'Lose dürfen sich unterscheiden, daher spricht jedes mit einer Einheit',
  'A chance of {p}': 'Eine Wahrscheinlichkeit von {p}',
  'lower bound {bound}': 'untere Schranke {bound}',
  'upper bound {bound}': 'obere Schranke {bound}',
  'At the worst of all shares of variance between lots, a chance of {p} for any of {n} items':
    'Beim ungünstigsten Anteil der Varianz zwischen Losen eine Wahrscheinlichkeit von {p} für irgendeinen von {n} Gegenständen',
  'At the worst of all shares of variance between lots, a chance of {p}':
    'Beim ungünstigsten Anteil der Varianz zwischen Losen eine Wahrscheinlichkeit von {p}',
  'At the worst of all shares of variance between lots and between rigs, a chance of {p} for any of {n} items':
    'Beim ungünstigsten Anteil der Varianz zwischen Losen und zwischen Prüfständen eine Wahrscheinlichkeit von {p} für irgendeinen von {n} Gegenständen',
  'At the worst of all shares of variance between lots and between rigs, a chance of {p}':
    'Beim ungünstigsten Anteil der Varianz zwischen Losen und zwischen Prüfständen eine Wahrscheinlichkeit von {p}',
  'found by {n} simulated comparisons of just these numbers of lots and units for each share, in which nothing differs':
    'gefunden an {n} simulierten Vergleichen mit eben diesen Zahlen von Losen und Einheiten für jeden Anteil, in denen nichts verschieden ist',
  'Within what do future units keep?': 'Worin bleiben künftige Einheiten?',
  'With {level}: lower bound {lower}, upper bound {upper}':
    'Mit {level}: untere Schranke {lower}, obere Schranke {upper}',
  'With {level}: lower bound {lower}': 'Mit {level}: untere Schranke {lower}',
  'With {level}: upper bound {upper}': 'Mit {level}: obere Schranke {upper}',
  'Which difference would have been found?': 'Welcher Unterschied wäre gefunden worden?',
  '{difference}, with a chance of {chance}, for one item, at the scatter the reference shows':
    '{difference}, mit einer Wahrscheinlichkeit von {chance}, für einen Gegenstand, bei der Streuung, die die Referenz zeigt',
  '{difference}, with a chance of {chance}, for one mean, at the scatter the reference shows':
    '{difference}, mit einer Wahrscheinlichkeit von {chance}, für einen Mittelwert, bei der Streuung, die die Referenz zeigt',
  'Do both sides break in the same modes, in the same shares?':
    'Brechen beide Seiten in denselben Arten, zu denselben Anteilen?',
  'May units of all lots be taken for one population?':
    'Dürfen Einheiten aller Lose als eine Gesamtheit genommen werden?',
  'The test does not tell the {n} lots apart at {level}': 'Der Test unterscheidet die {n} Lose zu {level} nicht',
  'Can this be compared?': 'Lässt sich dies vergleichen?',

  // Custody
  'Item {itemAsEntered}: {fromAsEntered} had it, and {toAsEntered} gave it away; who had it is not recorded between {begin} and {end}':
    'Gegenstand {itemAsEntered}: {fromAsEntered} hatte ihn, und {toAsEntered} gab ihn weiter; wer ihn zwischen {begin} und {end} hatte, ist nicht aufgezeichnet',
  'Item {itemAsEntered}: {fromAsEntered} had it, then {toAsEntered}, and no hand-over is recorded between {begin} and {end}':
    'Gegenstand {itemAsEntered}: {fromAsEntered} hatte ihn, dann {toAsEntered}, und zwischen {begin} und {end} ist keine Übergabe aufgezeichnet',
  'Item {itemAsEntered}: it was left under seal {sealAsEntered}; that the seal was found whole is not recorded between {begin} and {end}':
    'Gegenstand {itemAsEntered}: er wurde unter Siegel {sealAsEntered} gelassen; dass es unversehrt vorgefunden wurde, ist zwischen {begin} und {end} nicht aufgezeichnet',
  'Item {itemAsEntered}: it was left under seal {sealAsEntered} and found under seal {otherAsEntered} between {begin} and {end}':
    'Gegenstand {itemAsEntered}: er wurde unter Siegel {sealAsEntered} gelassen und zwischen {begin} und {end} unter Siegel {otherAsEntered} gefunden',
  'Item {itemAsEntered}: a new seal was put on while seal {sealAsEntered} was on it; that this was opened is not recorded between {begin} and {end}':
    'Gegenstand {itemAsEntered}: ein neues Siegel wurde angebracht, während Siegel {sealAsEntered} an ihm war; dass dieses geöffnet wurde, ist zwischen {begin} und {end} nicht aufgezeichnet',
  'Item {itemAsEntered}: it was given out at {begin}, and at {end} is "{stepAsEntered}"; how it came back is not recorded':
    'Gegenstand {itemAsEntered}: er wurde am {begin} herausgegeben und ist am {end} „{stepAsEntered}“; wie er zurückkam, ist nicht aufgezeichnet',
  'Item {itemAsEntered}: the first entry, of {begin}, is "{stepAsEntered}"; where it came from is not recorded':
    'Gegenstand {itemAsEntered}: der erste Eintrag, vom {begin}, ist „{stepAsEntered}“; woher er kam, ist nicht aufgezeichnet',
  'Item {itemAsEntered}: no custody is recorded': 'Gegenstand {itemAsEntered}: keine Verwahrung ist aufgezeichnet',

  // To be read with it
  'Revision {n} was declared at {begin}, after the first run of an item ({end}): what is compared could have been chosen by what was seen':
    'Revision {n} wurde am {begin} festgelegt, nach dem ersten Versuch mit einem Gegenstand ({end}): was verglichen wird, könnte nach dem Gesehenen gewählt sein',
  'The reference was frozen at {begin}, after the first run of an item ({end}): its units could have been chosen by what was seen':
    'Die Referenz wurde am {begin} eingefroren, nach dem ersten Versuch mit einem Gegenstand ({end}): ihre Einheiten könnten nach dem Gesehenen gewählt sein',
  'Items and reference are recorded under one lot: an item then is no unit of a lot of its own':
    'Gegenstände und Referenz sind unter einem Los geführt: ein Gegenstand ist dann keine Einheit eines eigenen Loses',
  'What is left may go to court, and item {itemAsEntered} was changed at {begin} ({stepAsEntered}) without a consent or notice recorded before':
    'Reste können vor Gericht kommen, und Gegenstand {itemAsEntered} wurde am {begin} verändert ({stepAsEntered}), ohne dass vorher eine Einwilligung oder Mitteilung aufgezeichnet war',
  '{titleAsEntered} was measured, and no characteristic is declared of it: it counts for nothing here':
    '{titleAsEntered} wurde gemessen, und kein Merkmal ist daraus festgelegt: es zählt hier nicht',
  '{titleAsEntered}: items were tested on {rigsAsEntered} and the reference on {othersAsEntered}, and no uncertainty between rigs is declared: a difference between the rigs would count as one of the items':
    '{titleAsEntered}: die Gegenstände wurden auf {rigsAsEntered} geprüft und die Referenz auf {othersAsEntered}, und keine Unsicherheit zwischen Prüfständen ist festgelegt: ein Unterschied zwischen den Prüfständen zählte als einer der Gegenstände',

  // Left out
  'it was not tested under {methodAsEntered} revision {n}': 'nicht nach {methodAsEntered} Revision {n} geprüft',
  'made under revision {n} of {methodAsEntered}; revision {m} is declared':
    'gemacht nach Revision {n} von {methodAsEntered}; festgelegt ist Revision {m}',
  'its validity is not decided': 'über seine Gültigkeit ist nicht entschieden',
  'set aside: {becauseAsEntered}': 'ausgenommen: {becauseAsEntered}',
  '{featureAsEntered} was not measured on it': '{featureAsEntered} wurde an ihm nicht gemessen',
  'measured again by {byAsEntered}; the first in time counts':
    'noch einmal gemessen durch {byAsEntered}; es zählt das zeitlich erste',
  '{byAsEntered} wrote down words, not a quantity': '{byAsEntered} schrieb Worte auf, keine Größe',
};
