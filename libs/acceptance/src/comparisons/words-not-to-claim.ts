/** A word that a lab must not claim, where it stands, and why not. */
export interface WordNotToClaim {
  word: string;
  reason: string;
}

const AUTHENTICITY =
  'whether an item is what it claims to be is a legal or trade decision that rests on other evidence too; say how well it agrees with the reference, and in what';
const MAKER = 'measurements do not tell who made an item; say in what it agrees with the reference or differs from it';
const INTENT = 'measurements do not tell what anyone intended; leave the reason for a difference open';
const EQUIVALENCE =
  'that no difference was found does not show that there is none; say which difference would have been found, or declare a margin beforehand';
const SAFETY = 'few items do not speak for a brand, a maker or a market; say what these items did';
const CHANCE =
  'a comparison gives no probability of what an item is: that takes what was known before, which the lab does not have';
const CERTAIN = 'a comparison proves nothing of the kind; say how well the item agrees, and at which level';

/** Said of the reference, whose making is known: "genuine units" may stand, "are genuine units" may not. */
const OF_REFERENCE = '\\s+(?:reference\\w*|units|specimens|samples|lots|wheels|rims)\\b';
const CALLED = '(?<=\\b(?:is|are|was|were|be)\\s+(?:an?\\s+|the\\s+)?)';
const OF_REFERENCE_GERMAN = '\\s+(?:Referenz\\p{L}*|Einheiten|Prüflinge|Muster|Lose|Räder|Felgen|Vergleichs\\p{L}+)';
const CALLED_GERMAN = '(?<=(?:ist|sind|war|waren)\\s+(?:ein\\p{L}*\\s+)?)';

const RULES: readonly { pattern: RegExp; reason: string }[] = [
  {
    pattern:
      /\b(?:counterfeit\w*|fake\w*|forge(?:d|ry|ries|r|rs)|imitat(?:ion|ions|ed|es|e)|pirate[ds]?|bogus|replicas?|knock-?offs?|sham)\b/giu,
    reason: AUTHENTICITY,
  },
  { pattern: /\b(?:non-?genuine|not\s+(?:a\s+)?genuine|ingenuine)\b/giu, reason: AUTHENTICITY },
  {
    pattern: new RegExp(`\\bgenuine(?:ly|ness)?\\b(?!${OF_REFERENCE})|${CALLED}genuine\\b`, 'giu'),
    reason: AUTHENTICITY,
  },
  { pattern: /\b(?:authentic(?:ity|ated)?|inauthentic)\b/giu, reason: AUTHENTICITY },
  {
    pattern:
      /\b(?:is|are|was|were|not|an?)\s+(?:an?\s+)?original\b(?!\s+(?:question|record|file|photo|picture|value|packag|state|condition|label)\w*)/giu,
    reason: AUTHENTICITY,
  },
  {
    pattern: /\b(?:same|common|different|other)\s+(?:origin|maker|manufacturer|factory|mould|source)\b/giu,
    reason: MAKER,
  },
  { pattern: /\b(?:made|produced|manufactured|built)\s+(?:by|at)\b/giu, reason: MAKER },
  {
    pattern: /\b(?:deliberate(?:ly)?|intentional(?:ly)?|fraud(?:ulent(?:ly)?)?|deceptive(?:ly)?|deceiv\w+)\b/giu,
    reason: INTENT,
  },
  {
    pattern:
      /\b(?:equivalent|identical|the\s+same|just\s+as\s+strong|no\s+worse)\b[^.;]*\b(?:because|since|as)\b[^.;]*\bno\s+(?:significant\s+)?difference/giu,
    reason: EQUIVALENCE,
  },
  {
    pattern:
      /\bno\s+(?:significant\s+)?difference\b[^.;]*\b(?:so|thus|therefore|hence|which\s+shows|proves|means\s+that)\b/giu,
    reason: EQUIVALENCE,
  },
  {
    pattern:
      /\b(?:unsafe|dangerous)\s+(?:brand|make|maker|manufacturer|market|product\s+line)s?\b|\b(?:brand|maker|manufacturer|market)\s+(?:is|are)\s+(?:unsafe|dangerous)\b/giu,
    reason: SAFETY,
  },
  {
    pattern: /\b(?:probability|likelihood|chance)\s+(?:that\s+(?:it|the\s+item|this)\s+is|of\s+being)\b/giu,
    reason: CHANCE,
  },
  { pattern: /\b(?:proves?|proven|proof)\s+(?:that|of)\b/giu, reason: CERTAIN },
  // German
  {
    pattern:
      /(?<!\p{L})(?:gefälsch\p{L}*|fälschung\p{L}*|plagiat\p{L}*|nachahmung\p{L}*|nachgemacht\p{L}*|imitat\p{L}*|raubkopie\p{L}*|produktpirat\p{L}*|unecht\p{L}*|fake\p{L}*)/giu,
    reason: AUTHENTICITY,
  },
  {
    pattern: new RegExp(
      `(?<!\\p{L})(?:echt(?:e|er|es|en|em|heit)?|authenti\\p{L}+)(?!\\p{L})(?!${OF_REFERENCE_GERMAN})|${CALLED_GERMAN}echte?[rns]?(?!\\p{L})`,
      'giu',
    ),
    reason: AUTHENTICITY,
  },
  {
    pattern: /(?<!\p{L})(?:ist|sind|war|waren|kein|keine)\s+(?:ein\s+|eine\s+)?original(?:e|es)?(?!\p{L})/giu,
    reason: AUTHENTICITY,
  },
  {
    pattern:
      /(?<!\p{L})(?:gleiche[rn]?|selbe[rn]?|derselben|gemeinsame[rn]?|andere[rn]?|fremde[rn]?)\s+(?:herkunft|ursprungs?|hersteller\p{L}*|fabrik|form)(?!\p{L})/giu,
    reason: MAKER,
  },
  {
    pattern:
      /(?<!\p{L})(?:hergestellt|gefertigt|produziert|gebaut)\s+(?:von|durch|bei)(?!\p{L})|(?<!\p{L})(?:von|durch)\s+\S+\s+(?:hergestellt|gefertigt|produziert|gebaut)(?!\p{L})/giu,
    reason: MAKER,
  },
  {
    pattern: /(?<!\p{L})(?:absichtlich|vorsätzlich|betrüger\p{L}*|betrug|täuschung\p{L}*)(?!\p{L})/giu,
    reason: INTENT,
  },
  {
    pattern:
      /(?<!\p{L})(?:gleichwertig|identisch|äquivalent)(?!\p{L})[^.;]*(?:weil|da)(?!\p{L})[^.;]*kein\p{L}*\s+(?:signifikant\p{L}*\s+)?unterschied/giu,
    reason: EQUIVALENCE,
  },
  {
    pattern: /(?<!\p{L})(?:unsicher\p{L}*|gefährlich\p{L}*)\s+(?:marke|hersteller|anbieter|markt)\p{L}*/giu,
    reason: SAFETY,
  },
  {
    pattern:
      /(?<!\p{L})wahrscheinlichkeit,?\s+dass\s+(?:es|sie|er|das|der|die)\s+(?:\S+\s+)?(?:echt|original|gefälscht)/giu,
    reason: CHANCE,
  },
  { pattern: /(?<!\p{L})(?:beweist|bewiesen)(?!\p{L})/giu, reason: CERTAIN },
];

/**
 * Which words of this text claim what a lab cannot know? In English and in German, each with the reason. "Genuine" may be
 * said of the reference ("genuine reference", "genuine units"), whose making is known, and of nothing else.
 */
export function wordsNotToClaim(text: string): WordNotToClaim[] {
  const found = RULES.flatMap(({ pattern, reason }) =>
    [...text.matchAll(pattern)].map((match) => ({ word: match[0], reason, at: match.index })),
  );
  found.sort((a, b) => a.at - b.at || b.word.length - a.word.length);
  const told: (WordNotToClaim & { end: number })[] = [];
  for (const { word, reason, at } of found) {
    // What stands inside a claim already told is not told again.
    if (told.some((one) => at < one.end)) continue;
    told.push({ word, reason, end: at + word.length });
  }
  return told.map(({ word, reason }) => ({ word, reason }));
}
