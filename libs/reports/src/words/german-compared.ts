const UNDECIDED = 'ist nicht entscheidbar';

/**
 * Sentences that a comparison keeps in English, and the same in German. A hole whose name ends in `AsEntered` holds what a
 * person wrote; any other holds numbers, names, or words that are known here too.
 */
export const GERMAN_COMPARED = {
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
  'Consistent: No difference beyond the prediction bounds was found between {what} and the reference, in {examined} examined':
    'Übereinstimmend: zwischen {what} und der Referenz wurde kein Unterschied über die Vorhersageschranken hinaus gefunden; untersucht: {examined}',
  'Consistent: No difference was found between {what} and the reference, in {examined} examined':
    'Übereinstimmend: zwischen {what} und der Referenz wurde kein Unterschied gefunden; untersucht: {examined}',
  'No difference beyond the prediction bounds was found between {what} and the reference, in {examined} examined':
    'Zwischen {what} und der Referenz wurde kein Unterschied über die Vorhersageschranken hinaus gefunden; untersucht: {examined}',
  'No difference was found between {what} and the reference, in {examined} examined':
    'Zwischen {what} und der Referenz wurde kein Unterschied gefunden; untersucht: {examined}',
  'This does not show common origin': 'Dies zeigt keine gemeinsame Herkunft',
  '{titlesAsEntered} was not examined on it: it took another test':
    '{titlesAsEntered} wurde an ihm nicht untersucht: er wurde anders geprüft',
  '{titlesAsEntered} were not examined on it: it took another test':
    '{titlesAsEntered} wurden an ihm nicht untersucht: er wurde anders geprüft',
  'Item {itemAsEntered} is not compared: {becauseAsEntered}':
    'Gegenstand {itemAsEntered} wird nicht verglichen: {becauseAsEntered}',

  // What was seen
  '{titleAsEntered} of item {itemAsEntered}, {seenAsEntered}, differs from all {units} looked at ({kindsAsEntered}); no build variant recorded for the period has this ({listAsEntered})':
    '{titleAsEntered} an Gegenstand {itemAsEntered}, {seenAsEntered}, unterscheidet sich von allen betrachteten {units} ({kindsAsEntered}); keine für die Zeit aufgezeichnete Bauvariante hat dies ({listAsEntered})',
  '{titleAsEntered} of item {itemAsEntered}, {seenAsEntered} as the customer found, differs from all {units} looked at ({kindsAsEntered}); no build variant recorded for the period has this ({listAsEntered})':
    '{titleAsEntered} an Gegenstand {itemAsEntered}, {seenAsEntered}, wie der Auftraggeber fand, unterscheidet sich von allen betrachteten {units} ({kindsAsEntered}); keine für die Zeit aufgezeichnete Bauvariante hat dies ({listAsEntered})',
  '{titleAsEntered} of item {itemAsEntered}, {seenAsEntered} as {providerAsEntered} found, differs from all {units} looked at ({kindsAsEntered}); no build variant recorded for the period has this ({listAsEntered})':
    '{titleAsEntered} an Gegenstand {itemAsEntered}, {seenAsEntered}, wie {providerAsEntered} fand, unterscheidet sich von allen betrachteten {units} ({kindsAsEntered}); keine für die Zeit aufgezeichnete Bauvariante hat dies ({listAsEntered})',
  '{titleAsEntered} of item {itemAsEntered}, {seenAsEntered}, differs from all {units} looked at ({kindsAsEntered}), and is inconclusive: nobody looked through the build records for variants of the period':
    '{titleAsEntered} an Gegenstand {itemAsEntered}, {seenAsEntered}, unterscheidet sich von allen betrachteten {units} ({kindsAsEntered}) und ist nicht entscheidbar: niemand hat die Fertigungsunterlagen auf Varianten der Zeit durchgesehen',
  '{titleAsEntered} of item {itemAsEntered}, {seenAsEntered} as the customer found, differs from all {units} looked at ({kindsAsEntered}), and is inconclusive: nobody looked through the build records for variants of the period':
    '{titleAsEntered} an Gegenstand {itemAsEntered}, {seenAsEntered}, wie der Auftraggeber fand, unterscheidet sich von allen betrachteten {units} ({kindsAsEntered}) und ist nicht entscheidbar: niemand hat die Fertigungsunterlagen auf Varianten der Zeit durchgesehen',
  '{titleAsEntered} of item {itemAsEntered}, {seenAsEntered} as {providerAsEntered} found, differs from all {units} looked at ({kindsAsEntered}), and is inconclusive: nobody looked through the build records for variants of the period':
    '{titleAsEntered} an Gegenstand {itemAsEntered}, {seenAsEntered}, wie {providerAsEntered} fand, unterscheidet sich von allen betrachteten {units} ({kindsAsEntered}) und ist nicht entscheidbar: niemand hat die Fertigungsunterlagen auf Varianten der Zeit durchgesehen',
  '{titleAsEntered} of item {itemAsEntered}, {seenAsEntered}, was seen alike on {n} of {units} looked at':
    '{titleAsEntered} an Gegenstand {itemAsEntered}, {seenAsEntered}, wurde ebenso gesehen an {n} von {units}, die betrachtet wurden',
  '{titleAsEntered} of item {itemAsEntered}, {seenAsEntered} as the customer found, was seen alike on {n} of {units} looked at':
    '{titleAsEntered} an Gegenstand {itemAsEntered}, {seenAsEntered}, wie der Auftraggeber fand, wurde ebenso gesehen an {n} von {units}, die betrachtet wurden',
  '{titleAsEntered} of item {itemAsEntered}, {seenAsEntered} as {providerAsEntered} found, was seen alike on {n} of {units} looked at':
    '{titleAsEntered} an Gegenstand {itemAsEntered}, {seenAsEntered}, wie {providerAsEntered} fand, wurde ebenso gesehen an {n} von {units}, die betrachtet wurden',
  '{titleAsEntered} of item {itemAsEntered}, {seenAsEntered}, is a build variant recorded for the period':
    '{titleAsEntered} an Gegenstand {itemAsEntered}, {seenAsEntered}, ist eine für die Zeit aufgezeichnete Bauvariante',
  '{titleAsEntered} of item {itemAsEntered}, {seenAsEntered} as the customer found, is a build variant recorded for the period':
    '{titleAsEntered} an Gegenstand {itemAsEntered}, {seenAsEntered}, wie der Auftraggeber fand, ist eine für die Zeit aufgezeichnete Bauvariante',
  '{titleAsEntered} of item {itemAsEntered}, {seenAsEntered} as {providerAsEntered} found, is a build variant recorded for the period':
    '{titleAsEntered} an Gegenstand {itemAsEntered}, {seenAsEntered}, wie {providerAsEntered} fand, ist eine für die Zeit aufgezeichnete Bauvariante',
  '{titleAsEntered} of item {itemAsEntered}, {seenAsEntered}, is inconclusive: no reference unit was looked at for it':
    '{titleAsEntered} an Gegenstand {itemAsEntered}, {seenAsEntered}, ist nicht entscheidbar: keine Referenzeinheit wurde daraufhin betrachtet',
  '{titleAsEntered} of item {itemAsEntered}, {seenAsEntered} as the customer found, is inconclusive: no reference unit was looked at for it':
    '{titleAsEntered} an Gegenstand {itemAsEntered}, {seenAsEntered}, wie der Auftraggeber fand, ist nicht entscheidbar: keine Referenzeinheit wurde daraufhin betrachtet',
  '{titleAsEntered} of item {itemAsEntered}, {seenAsEntered} as {providerAsEntered} found, is inconclusive: no reference unit was looked at for it':
    '{titleAsEntered} an Gegenstand {itemAsEntered}, {seenAsEntered}, wie {providerAsEntered} fand, ist nicht entscheidbar: keine Referenzeinheit wurde daraufhin betrachtet',
  '{titleAsEntered} of items {itemsAsEntered}, {seenAsEntered}, differs from all {units} looked at ({kindsAsEntered}); no build variant recorded for the period has this ({listAsEntered})':
    '{titleAsEntered} an den Gegenständen {itemsAsEntered}, {seenAsEntered}, unterscheidet sich von allen betrachteten {units} ({kindsAsEntered}); keine für die Zeit aufgezeichnete Bauvariante hat dies ({listAsEntered})',
  '{titleAsEntered} of items {itemsAsEntered}, {seenAsEntered} as the customer found, differs from all {units} looked at ({kindsAsEntered}); no build variant recorded for the period has this ({listAsEntered})':
    '{titleAsEntered} an den Gegenständen {itemsAsEntered}, {seenAsEntered}, wie der Auftraggeber fand, unterscheidet sich von allen betrachteten {units} ({kindsAsEntered}); keine für die Zeit aufgezeichnete Bauvariante hat dies ({listAsEntered})',
  '{titleAsEntered} of items {itemsAsEntered}, {seenAsEntered} as {providerAsEntered} found, differs from all {units} looked at ({kindsAsEntered}); no build variant recorded for the period has this ({listAsEntered})':
    '{titleAsEntered} an den Gegenständen {itemsAsEntered}, {seenAsEntered}, wie {providerAsEntered} fand, unterscheidet sich von allen betrachteten {units} ({kindsAsEntered}); keine für die Zeit aufgezeichnete Bauvariante hat dies ({listAsEntered})',
  '{titleAsEntered} of items {itemsAsEntered}, {seenAsEntered}, differs from all {units} looked at ({kindsAsEntered}), and is inconclusive: nobody looked through the build records for variants of the period':
    '{titleAsEntered} an den Gegenständen {itemsAsEntered}, {seenAsEntered}, unterscheidet sich von allen betrachteten {units} ({kindsAsEntered}) und ist nicht entscheidbar: niemand hat die Fertigungsunterlagen auf Varianten der Zeit durchgesehen',
  '{titleAsEntered} of items {itemsAsEntered}, {seenAsEntered} as the customer found, differs from all {units} looked at ({kindsAsEntered}), and is inconclusive: nobody looked through the build records for variants of the period':
    '{titleAsEntered} an den Gegenständen {itemsAsEntered}, {seenAsEntered}, wie der Auftraggeber fand, unterscheidet sich von allen betrachteten {units} ({kindsAsEntered}) und ist nicht entscheidbar: niemand hat die Fertigungsunterlagen auf Varianten der Zeit durchgesehen',
  '{titleAsEntered} of items {itemsAsEntered}, {seenAsEntered} as {providerAsEntered} found, differs from all {units} looked at ({kindsAsEntered}), and is inconclusive: nobody looked through the build records for variants of the period':
    '{titleAsEntered} an den Gegenständen {itemsAsEntered}, {seenAsEntered}, wie {providerAsEntered} fand, unterscheidet sich von allen betrachteten {units} ({kindsAsEntered}) und ist nicht entscheidbar: niemand hat die Fertigungsunterlagen auf Varianten der Zeit durchgesehen',
  '{titleAsEntered} of items {itemsAsEntered}, {seenAsEntered}, was seen alike on {n} of {units} looked at':
    '{titleAsEntered} an den Gegenständen {itemsAsEntered}, {seenAsEntered}, wurde ebenso gesehen an {n} von {units}, die betrachtet wurden',
  '{titleAsEntered} of items {itemsAsEntered}, {seenAsEntered} as the customer found, was seen alike on {n} of {units} looked at':
    '{titleAsEntered} an den Gegenständen {itemsAsEntered}, {seenAsEntered}, wie der Auftraggeber fand, wurde ebenso gesehen an {n} von {units}, die betrachtet wurden',
  '{titleAsEntered} of items {itemsAsEntered}, {seenAsEntered} as {providerAsEntered} found, was seen alike on {n} of {units} looked at':
    '{titleAsEntered} an den Gegenständen {itemsAsEntered}, {seenAsEntered}, wie {providerAsEntered} fand, wurde ebenso gesehen an {n} von {units}, die betrachtet wurden',
  '{titleAsEntered} of items {itemsAsEntered}, {seenAsEntered}, is a build variant recorded for the period':
    '{titleAsEntered} an den Gegenständen {itemsAsEntered}, {seenAsEntered}, ist eine für die Zeit aufgezeichnete Bauvariante',
  '{titleAsEntered} of items {itemsAsEntered}, {seenAsEntered} as the customer found, is a build variant recorded for the period':
    '{titleAsEntered} an den Gegenständen {itemsAsEntered}, {seenAsEntered}, wie der Auftraggeber fand, ist eine für die Zeit aufgezeichnete Bauvariante',
  '{titleAsEntered} of items {itemsAsEntered}, {seenAsEntered} as {providerAsEntered} found, is a build variant recorded for the period':
    '{titleAsEntered} an den Gegenständen {itemsAsEntered}, {seenAsEntered}, wie {providerAsEntered} fand, ist eine für die Zeit aufgezeichnete Bauvariante',
  '{titleAsEntered} of items {itemsAsEntered}, {seenAsEntered}, is inconclusive: no reference unit was looked at for it':
    '{titleAsEntered} an den Gegenständen {itemsAsEntered}, {seenAsEntered}, ist nicht entscheidbar: keine Referenzeinheit wurde daraufhin betrachtet',
  '{titleAsEntered} of items {itemsAsEntered}, {seenAsEntered} as the customer found, is inconclusive: no reference unit was looked at for it':
    '{titleAsEntered} an den Gegenständen {itemsAsEntered}, {seenAsEntered}, wie der Auftraggeber fand, ist nicht entscheidbar: keine Referenzeinheit wurde daraufhin betrachtet',
  '{titleAsEntered} of items {itemsAsEntered}, {seenAsEntered} as {providerAsEntered} found, is inconclusive: no reference unit was looked at for it':
    '{titleAsEntered} an den Gegenständen {itemsAsEntered}, {seenAsEntered}, wie {providerAsEntered} fand, ist nicht entscheidbar: keine Referenzeinheit wurde daraufhin betrachtet',
  '{titleAsEntered} of item {itemAsEntered}, {seenAsEntered}, was read in more than one way, and is inconclusive': `{titleAsEntered} an Gegenstand {itemAsEntered}, {seenAsEntered}, wurde verschieden gelesen und ${UNDECIDED}`,
  '{titleAsEntered} of items {itemsAsEntered} was not looked at':
    '{titleAsEntered} wurde an den Gegenständen {itemsAsEntered} nicht betrachtet',
  '{titleAsEntered} of item {itemAsEntered} is not compared; it is set aside: {becauseAsEntered}':
    '{titleAsEntered} an Gegenstand {itemAsEntered} wird nicht verglichen; er ist ausgenommen: {becauseAsEntered}',
  '{titleAsEntered} of items {itemsAsEntered} is not compared; it is set aside: {becauseAsEntered}':
    '{titleAsEntered} an den Gegenständen {itemsAsEntered} wird nicht verglichen; sie sind ausgenommen: {becauseAsEntered}',
  '{titleAsEntered} of item {itemAsEntered} was not looked at':
    '{titleAsEntered} wurde an Gegenstand {itemAsEntered} nicht betrachtet',

  // Prediction
  '{titleAsEntered} of item {itemAsEntered}, {value}, lies below the {level} prediction bound {bound} of the reference (n = {n}, {lots})':
    '{titleAsEntered} von Gegenstand {itemAsEntered}, {value}, liegt unter der Vorhersageschranke zu {level}, {bound}, der Referenz (n = {n}, {lots})',
  '{titleAsEntered} of item {itemAsEntered}, {value}, lies above the {level} prediction bound {bound} of the reference (n = {n}, {lots})':
    '{titleAsEntered} von Gegenstand {itemAsEntered}, {value}, liegt über der Vorhersageschranke zu {level}, {bound}, der Referenz (n = {n}, {lots})',
  '{titleAsEntered} of item {itemAsEntered}, {value}, lies within the {level} prediction bound {bound} of the reference (n = {n}, {lots})':
    '{titleAsEntered} von Gegenstand {itemAsEntered}, {value}, liegt innerhalb der Vorhersageschranke zu {level}, {bound}, der Referenz (n = {n}, {lots})',
  '{titleAsEntered} of item {itemAsEntered}, {value}, lies within the {level} prediction bounds {lower} to {upper} of the reference (n = {n}, {lots})':
    '{titleAsEntered} von Gegenstand {itemAsEntered}, {value}, liegt innerhalb der Vorhersageschranken zu {level}, {lower} bis {upper}, der Referenz (n = {n}, {lots})',
  '{titleAsEntered} of item {itemAsEntered}, {value}, is inconclusive: it lies within the prediction bounds, but {but}': `{titleAsEntered} von Gegenstand {itemAsEntered}, {value}, ${UNDECIDED}: innerhalb der Vorhersageschranken, aber {but}`,
  '{titleAsEntered} of item {itemAsEntered}, {value}, is inconclusive: what is known of it reaches to both sides of the {level} prediction bound {bound}': `{titleAsEntered} von Gegenstand {itemAsEntered}, {value}, ${UNDECIDED}: was davon bekannt ist, reicht auf beide Seiten der Vorhersageschranke zu {level}, {bound}`,
  '{titleAsEntered} of item {itemAsEntered}, {value}, is inconclusive: {because}': `{titleAsEntered} von Gegenstand {itemAsEntered}, {value}, ${UNDECIDED}: {because}`,
  '{titleAsEntered}: the mean of the {n} items, {value}, lies below the {level} prediction bound {bound} of the reference (n = {m}, {lots})':
    '{titleAsEntered}: der Mittelwert der {n} Gegenstände, {value}, liegt unter der Vorhersageschranke zu {level}, {bound}, der Referenz (n = {m}, {lots})',
  '{titleAsEntered}: the mean of the {n} items, {value}, lies above the {level} prediction bound {bound} of the reference (n = {m}, {lots})':
    '{titleAsEntered}: der Mittelwert der {n} Gegenstände, {value}, liegt über der Vorhersageschranke zu {level}, {bound}, der Referenz (n = {m}, {lots})',
  '{titleAsEntered}: the mean of the {n} items, {value}, lies within the {level} prediction bounds {lower} to {upper} of the reference (n = {m}, {lots})':
    '{titleAsEntered}: der Mittelwert der {n} Gegenstände, {value}, liegt innerhalb der Vorhersageschranken zu {level}, {lower} bis {upper}, der Referenz (n = {m}, {lots})',
  '{titleAsEntered}: all {n} items lie within the {level} prediction bound {bound} of the reference (n = {m}, {lots})':
    '{titleAsEntered}: alle {n} Gegenstände liegen innerhalb der Vorhersageschranke zu {level}, {bound}, der Referenz (n = {m}, {lots})',
  '{titleAsEntered}: all {n} items lie within the {level} prediction bounds {lower} to {upper} of the reference (n = {m}, {lots})':
    '{titleAsEntered}: alle {n} Gegenstände liegen innerhalb der Vorhersageschranken zu {level}, {lower} bis {upper}, der Referenz (n = {m}, {lots})',
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
  'specimens of {group} are compared one by one, and the test tells their lots apart (p = {p}, k-sample Anderson-Darling at {level})':
    'Prüflinge von {group} werden einzeln verglichen, und der Test unterscheidet ihre Lose (p = {p}, Anderson-Darling für mehrere Stichproben zu {level})',
  'lots are declared to vary, in a comparison of its own':
    'Lose werden als verschieden festgelegt, in einem eigenen Vergleich',
  'lot means are compared, in a comparison of its own':
    'Mittelwerte von Losen werden verglichen, in einem eigenen Vergleich',
  '{n} units': '{n} Einheiten',

  // Two groups, named as the lab names its items, or as they were entered
  '{titleAsEntered}: no difference was found between {second} (n = {n}, {lots}) and {first} (n = {m}, {otherLots}) at the {level} level ({tests}); {by}':
    '{titleAsEntered}: zwischen {second} (n = {n}, {lots}) und {first} (n = {m}, {otherLots}) wurde auf dem Niveau {level} kein Unterschied gefunden ({tests}); {by}',
  '{titleAsEntered}: values of {second} (n = {n}, {lots}) tend to lie lower than those of {first} (n = {m}, {otherLots}) at the {level} level ({tests}); {by}':
    '{titleAsEntered}: Werte von {second} (n = {n}, {lots}) liegen auf dem Niveau {level} eher niedriger als die von {first} (n = {m}, {otherLots}) ({tests}); {by}',
  '{titleAsEntered}: values of {second} (n = {n}, {lots}) tend to lie higher than those of {first} (n = {m}, {otherLots}) at the {level} level ({tests}); {by}':
    '{titleAsEntered}: Werte von {second} (n = {n}, {lots}) liegen auf dem Niveau {level} eher höher als die von {first} (n = {m}, {otherLots}) ({tests}); {by}',
  '{titleAsEntered}: inconclusive between {second} (n = {n}, {lots}) and {first} (n = {m}, {otherLots}); no difference was found ({tests}; {by}), but {but}':
    '{titleAsEntered}: nicht entscheidbar zwischen {second} (n = {n}, {lots}) und {first} (n = {m}, {otherLots}); kein Unterschied wurde gefunden ({tests}; {by}), aber {but}',
  '{titleAsEntered}: {second} (n = {n}, {lots}) and {first} (n = {m}, {otherLots}) are shown to differ by less than the margin of {low} to {high} (difference {difference}, {level} limits {lower} to {upper}, p = {p})':
    '{titleAsEntered}: von {second} (n = {n}, {lots}) und {first} (n = {m}, {otherLots}) ist gezeigt, dass sie sich unterscheiden um weniger als die Spanne {low} bis {high} (Unterschied {difference}, Grenzen zu {level} {lower} bis {upper}, p = {p})',
  '{titleAsEntered}: {second} (n = {n}, {lots}) and {first} (n = {m}, {otherLots}) differ by more than the margin; they are shown not to differ by less than the margin of {low} to {high} (difference {difference}, {level} limits {lower} to {upper}, p = {p})':
    '{titleAsEntered}: {second} (n = {n}, {lots}) und {first} (n = {m}, {otherLots}) unterscheiden sich um mehr als die Spanne; gezeigt ist, dass sie sich nicht unterscheiden um weniger als die Spanne {low} bis {high} (Unterschied {difference}, Grenzen zu {level} {lower} bis {upper}, p = {p})',
  '{titleAsEntered}: inconclusive; {second} (n = {n}, {lots}) and {first} (n = {m}, {otherLots}) are not shown to differ by less than the margin of {low} to {high} (difference {difference}, {level} limits {lower} to {upper}, p = {p})':
    '{titleAsEntered}: nicht entscheidbar; von {second} (n = {n}, {lots}) und {first} (n = {m}, {otherLots}) ist nicht gezeigt, dass sie sich unterscheiden um weniger als die Spanne {low} bis {high} (Unterschied {difference}, Grenzen zu {level} {lower} bis {upper}, p = {p})',
  '{titleAsEntered}: {second} (n = {n}, {lots}) and {first} (n = {m}, {otherLots}) are shown to differ by less than the margin of {margin} where they lie below (difference {difference}, {level} limits {lower} to {upper}, p = {p})':
    '{titleAsEntered}: von {second} (n = {n}, {lots}) und {first} (n = {m}, {otherLots}) ist gezeigt, dass sie sich unterscheiden um weniger als die Spanne {margin}, wo sie darunter liegen (Unterschied {difference}, Grenzen zu {level} {lower} bis {upper}, p = {p})',
  '{titleAsEntered}: {second} (n = {n}, {lots}) and {first} (n = {m}, {otherLots}) differ by more than the margin; they are shown not to differ by less than the margin of {margin} where they lie below (difference {difference}, {level} limits {lower} to {upper}, p = {p})':
    '{titleAsEntered}: {second} (n = {n}, {lots}) und {first} (n = {m}, {otherLots}) unterscheiden sich um mehr als die Spanne; gezeigt ist, dass sie sich nicht unterscheiden um weniger als die Spanne {margin}, wo sie darunter liegen (Unterschied {difference}, Grenzen zu {level} {lower} bis {upper}, p = {p})',
  '{titleAsEntered}: inconclusive; {second} (n = {n}, {lots}) and {first} (n = {m}, {otherLots}) are not shown to differ by less than the margin of {margin} where they lie below (difference {difference}, {level} limits {lower} to {upper}, p = {p})':
    '{titleAsEntered}: nicht entscheidbar; von {second} (n = {n}, {lots}) und {first} (n = {m}, {otherLots}) ist nicht gezeigt, dass sie sich unterscheiden um weniger als die Spanne {margin}, wo sie darunter liegen (Unterschied {difference}, Grenzen zu {level} {lower} bis {upper}, p = {p})',
  '{titleAsEntered}: {second} (n = {n}, {lots}) and {first} (n = {m}, {otherLots}) are shown to differ by less than the margin of {margin} where they lie above (difference {difference}, {level} limits {lower} to {upper}, p = {p})':
    '{titleAsEntered}: von {second} (n = {n}, {lots}) und {first} (n = {m}, {otherLots}) ist gezeigt, dass sie sich unterscheiden um weniger als die Spanne {margin}, wo sie darüber liegen (Unterschied {difference}, Grenzen zu {level} {lower} bis {upper}, p = {p})',
  '{titleAsEntered}: {second} (n = {n}, {lots}) and {first} (n = {m}, {otherLots}) differ by more than the margin; they are shown not to differ by less than the margin of {margin} where they lie above (difference {difference}, {level} limits {lower} to {upper}, p = {p})':
    '{titleAsEntered}: {second} (n = {n}, {lots}) und {first} (n = {m}, {otherLots}) unterscheiden sich um mehr als die Spanne; gezeigt ist, dass sie sich nicht unterscheiden um weniger als die Spanne {margin}, wo sie darüber liegen (Unterschied {difference}, Grenzen zu {level} {lower} bis {upper}, p = {p})',
  '{titleAsEntered}: inconclusive; {second} (n = {n}, {lots}) and {first} (n = {m}, {otherLots}) are not shown to differ by less than the margin of {margin} where they lie above (difference {difference}, {level} limits {lower} to {upper}, p = {p})':
    '{titleAsEntered}: nicht entscheidbar; von {second} (n = {n}, {lots}) und {first} (n = {m}, {otherLots}) ist nicht gezeigt, dass sie sich unterscheiden um weniger als die Spanne {margin}, wo sie darüber liegen (Unterschied {difference}, Grenzen zu {level} {lower} bis {upper}, p = {p})',
  '{titleAsEntered}: no difference was found between {secondAsEntered} (n = {n}, {lots}) and {firstAsEntered} (n = {m}, {otherLots}) at the {level} level ({tests}); {by}':
    '{titleAsEntered}: zwischen {secondAsEntered} (n = {n}, {lots}) und {firstAsEntered} (n = {m}, {otherLots}) wurde auf dem Niveau {level} kein Unterschied gefunden ({tests}); {by}',
  '{titleAsEntered}: values of {secondAsEntered} (n = {n}, {lots}) tend to lie lower than those of {firstAsEntered} (n = {m}, {otherLots}) at the {level} level ({tests}); {by}':
    '{titleAsEntered}: Werte von {secondAsEntered} (n = {n}, {lots}) liegen auf dem Niveau {level} eher niedriger als die von {firstAsEntered} (n = {m}, {otherLots}) ({tests}); {by}',
  '{titleAsEntered}: values of {secondAsEntered} (n = {n}, {lots}) tend to lie higher than those of {firstAsEntered} (n = {m}, {otherLots}) at the {level} level ({tests}); {by}':
    '{titleAsEntered}: Werte von {secondAsEntered} (n = {n}, {lots}) liegen auf dem Niveau {level} eher höher als die von {firstAsEntered} (n = {m}, {otherLots}) ({tests}); {by}',
  '{titleAsEntered}: inconclusive between {secondAsEntered} (n = {n}, {lots}) and {firstAsEntered} (n = {m}, {otherLots}); no difference was found ({tests}; {by}), but {but}':
    '{titleAsEntered}: nicht entscheidbar zwischen {secondAsEntered} (n = {n}, {lots}) und {firstAsEntered} (n = {m}, {otherLots}); kein Unterschied wurde gefunden ({tests}; {by}), aber {but}',
  '{titleAsEntered}: {secondAsEntered} (n = {n}, {lots}) and {firstAsEntered} (n = {m}, {otherLots}) are shown to differ by less than the margin of {low} to {high} (difference {difference}, {level} limits {lower} to {upper}, p = {p})':
    '{titleAsEntered}: von {secondAsEntered} (n = {n}, {lots}) und {firstAsEntered} (n = {m}, {otherLots}) ist gezeigt, dass sie sich unterscheiden um weniger als die Spanne {low} bis {high} (Unterschied {difference}, Grenzen zu {level} {lower} bis {upper}, p = {p})',
  '{titleAsEntered}: {secondAsEntered} (n = {n}, {lots}) and {firstAsEntered} (n = {m}, {otherLots}) differ by more than the margin; they are shown not to differ by less than the margin of {low} to {high} (difference {difference}, {level} limits {lower} to {upper}, p = {p})':
    '{titleAsEntered}: {secondAsEntered} (n = {n}, {lots}) und {firstAsEntered} (n = {m}, {otherLots}) unterscheiden sich um mehr als die Spanne; gezeigt ist, dass sie sich nicht unterscheiden um weniger als die Spanne {low} bis {high} (Unterschied {difference}, Grenzen zu {level} {lower} bis {upper}, p = {p})',
  '{titleAsEntered}: inconclusive; {secondAsEntered} (n = {n}, {lots}) and {firstAsEntered} (n = {m}, {otherLots}) are not shown to differ by less than the margin of {low} to {high} (difference {difference}, {level} limits {lower} to {upper}, p = {p})':
    '{titleAsEntered}: nicht entscheidbar; von {secondAsEntered} (n = {n}, {lots}) und {firstAsEntered} (n = {m}, {otherLots}) ist nicht gezeigt, dass sie sich unterscheiden um weniger als die Spanne {low} bis {high} (Unterschied {difference}, Grenzen zu {level} {lower} bis {upper}, p = {p})',
  '{titleAsEntered}: {secondAsEntered} (n = {n}, {lots}) and {firstAsEntered} (n = {m}, {otherLots}) are shown to differ by less than the margin of {margin} where they lie below (difference {difference}, {level} limits {lower} to {upper}, p = {p})':
    '{titleAsEntered}: von {secondAsEntered} (n = {n}, {lots}) und {firstAsEntered} (n = {m}, {otherLots}) ist gezeigt, dass sie sich unterscheiden um weniger als die Spanne {margin}, wo sie darunter liegen (Unterschied {difference}, Grenzen zu {level} {lower} bis {upper}, p = {p})',
  '{titleAsEntered}: {secondAsEntered} (n = {n}, {lots}) and {firstAsEntered} (n = {m}, {otherLots}) differ by more than the margin; they are shown not to differ by less than the margin of {margin} where they lie below (difference {difference}, {level} limits {lower} to {upper}, p = {p})':
    '{titleAsEntered}: {secondAsEntered} (n = {n}, {lots}) und {firstAsEntered} (n = {m}, {otherLots}) unterscheiden sich um mehr als die Spanne; gezeigt ist, dass sie sich nicht unterscheiden um weniger als die Spanne {margin}, wo sie darunter liegen (Unterschied {difference}, Grenzen zu {level} {lower} bis {upper}, p = {p})',
  '{titleAsEntered}: inconclusive; {secondAsEntered} (n = {n}, {lots}) and {firstAsEntered} (n = {m}, {otherLots}) are not shown to differ by less than the margin of {margin} where they lie below (difference {difference}, {level} limits {lower} to {upper}, p = {p})':
    '{titleAsEntered}: nicht entscheidbar; von {secondAsEntered} (n = {n}, {lots}) und {firstAsEntered} (n = {m}, {otherLots}) ist nicht gezeigt, dass sie sich unterscheiden um weniger als die Spanne {margin}, wo sie darunter liegen (Unterschied {difference}, Grenzen zu {level} {lower} bis {upper}, p = {p})',
  '{titleAsEntered}: {secondAsEntered} (n = {n}, {lots}) and {firstAsEntered} (n = {m}, {otherLots}) are shown to differ by less than the margin of {margin} where they lie above (difference {difference}, {level} limits {lower} to {upper}, p = {p})':
    '{titleAsEntered}: von {secondAsEntered} (n = {n}, {lots}) und {firstAsEntered} (n = {m}, {otherLots}) ist gezeigt, dass sie sich unterscheiden um weniger als die Spanne {margin}, wo sie darüber liegen (Unterschied {difference}, Grenzen zu {level} {lower} bis {upper}, p = {p})',
  '{titleAsEntered}: {secondAsEntered} (n = {n}, {lots}) and {firstAsEntered} (n = {m}, {otherLots}) differ by more than the margin; they are shown not to differ by less than the margin of {margin} where they lie above (difference {difference}, {level} limits {lower} to {upper}, p = {p})':
    '{titleAsEntered}: {secondAsEntered} (n = {n}, {lots}) und {firstAsEntered} (n = {m}, {otherLots}) unterscheiden sich um mehr als die Spanne; gezeigt ist, dass sie sich nicht unterscheiden um weniger als die Spanne {margin}, wo sie darüber liegen (Unterschied {difference}, Grenzen zu {level} {lower} bis {upper}, p = {p})',
  '{titleAsEntered}: inconclusive; {secondAsEntered} (n = {n}, {lots}) and {firstAsEntered} (n = {m}, {otherLots}) are not shown to differ by less than the margin of {margin} where they lie above (difference {difference}, {level} limits {lower} to {upper}, p = {p})':
    '{titleAsEntered}: nicht entscheidbar; von {secondAsEntered} (n = {n}, {lots}) und {firstAsEntered} (n = {m}, {otherLots}) ist nicht gezeigt, dass sie sich unterscheiden um weniger als die Spanne {margin}, wo sie darüber liegen (Unterschied {difference}, Grenzen zu {level} {lower} bis {upper}, p = {p})',
  'Consistent: No difference was found between {secondAsEntered} and {firstAsEntered}, in {examined} examined':
    'Übereinstimmend: zwischen {secondAsEntered} und {firstAsEntered} wurde kein Unterschied gefunden; untersucht: {examined}',
  '{titleAsEntered} of {n} specimens of {secondAsEntered}, {seenAsEntered}, was seen alike on {m} of {k} specimens of {firstAsEntered} looked at':
    '{titleAsEntered} an {n} Prüflingen von {secondAsEntered}, {seenAsEntered}, wurde ebenso gesehen an {m} von {k} Prüflingen von {firstAsEntered}, die betrachtet wurden',
  '{titleAsEntered} of {n} specimens of {secondAsEntered}, {seenAsEntered} as {providerAsEntered} found, was seen alike on {m} of {k} specimens of {firstAsEntered} looked at':
    '{titleAsEntered} an {n} Prüflingen von {secondAsEntered}, {seenAsEntered}, wie {providerAsEntered} fand, wurde ebenso gesehen an {m} von {k} Prüflingen von {firstAsEntered}, die betrachtet wurden',
  '{test}, p = {p}': '{test}, p = {p}',
  'Mann-Whitney test': 'Mann-Whitney-Test',
  'Welch test of means': 'Welch-Test der Mittelwerte',
  'Permutation test': 'Permutationstest',
  'difference {difference}, {level} limits {lower} to {upper}':
    'Unterschied {difference}, Grenzen zu {level} {lower} bis {upper}',
  'difference {difference}, without limits: {because}': 'Unterschied {difference}, ohne Grenzen: {because}',
  'by how much is not told, since some values are known from one side only':
    'um wie viel, wird nicht gesagt, da manche Werte nur von einer Seite bekannt sind',
  'the power of a test by ranks or arrangements hangs on a distribution, and none is declared':
    'die Trennschärfe eines Tests nach Rängen oder Anordnungen hängt an einer Verteilung, und keine ist festgelegt',
  'the tool is Welch': 'das Werkzeug ist Welch',
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
  'Of {items} (n = {n}, {lots}): {modesAsEntered}; of {reference} (n = {m}, {otherLots}): {otherModesAsEntered}':
    'Von {items} (n = {n}, {lots}): {modesAsEntered}; von {reference} (n = {m}, {otherLots}): {otherModesAsEntered}',

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
  'May specimens of {group} be compared one by one?': 'Dürfen Prüflinge von {group} einzeln verglichen werden?',
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
