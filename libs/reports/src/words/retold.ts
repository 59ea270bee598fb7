import { NOUNS } from '@breakbook/acceptance';
import { filled, type Language, numeral } from '@breakbook/lab';

type OtherLanguage = Exclude<Language, 'en'>;

export interface Retold {
  /** A sentence; in quotation marks where its form is not known. */
  sentence: (stored: string) => string;
  /** A name, such as that of a channel; as it is where it is not known. */
  name: (stored: string) => string;
}

interface KnownForm {
  form: string;
  pattern: RegExp;
  holes: string[];
  said: string;
  /** Letters of the form itself: the more, the surer the match. */
  letters: number;
}

/** What a judgement of long ago may hold, and a report with many runs repeats. */
const MOST_KEPT = 20_000;

/**
 * Words a stored sentence again in another language. A judgement keeps its sentences in English and not always what went
 * into them; each was made by filling a form, so a sentence that fits a known form gives what filled it back, to the letter,
 * and the same form of the other language is filled with it. What is in a hole is worded in turn; names and numbers stay. A
 * sentence that fits no form is printed as it is kept, in quotation marks.
 */
export function retold(language: OtherLanguage, catalogue: Readonly<Record<string, string>>): Retold {
  const forms = Object.entries(catalogue)
    .map(([form, said]) => knownForm(form, said))
    .sort((a, b) => b.letters - a.letters);
  const exact = new Map(Object.entries(catalogue));
  const kept = new Map<string, string | undefined>();
  const nouns = NOUNS[language];

  const worded = (text: string): string | undefined => {
    if (!kept.has(text)) {
      if (kept.size > MOST_KEPT) kept.clear();
      // Until it is known, so that a form which is all hole does not ask for itself.
      kept.set(text, undefined);
      kept.set(text, find(text));
    }
    return kept.get(text);
  };

  const find = (text: string): string | undefined =>
    exact.get(text) ??
    // Before any form: the last hole of one must not take the sentences that follow it.
    sentences(text) ??
    byForm(text) ??
    inParts(text, '; ') ??
    ended(text) ??
    inParts(text, ', ') ??
    bracketed(text) ??
    lowered(text) ??
    counted(text) ??
    neutral(text);

  const byForm = (text: string): string | undefined => {
    // A full stop belongs to no hole, unless only so its words are known.
    const ways = text.endsWith('.') ? [[text.slice(0, -1), '.'] as const, [text, ''] as const] : [[text, ''] as const];
    for (const form of forms) {
      if (form.holes.length === 0 || form.letters < 4) continue;
      for (const [rest, stop] of ways) {
        const said = filledFrom(form, rest);
        if (said !== undefined) return `${said}${stop}`;
      }
    }
    return undefined;
  };

  const filledFrom = ({ pattern, holes, said }: KnownForm, text: string): string | undefined => {
    const match = pattern.exec(text);
    if (!match) return undefined;
    const values = holes.map((hole, index) => inHole(hole, match[index + 1] ?? ''));
    if (!values.every((value) => value !== undefined)) return undefined;
    return filled(said, Object.fromEntries(holes.map((hole, index) => [hole, values[index] as string])));
  };

  /** Holes named for what people write hold it as it was entered; few hold more than one part of a sentence. */
  const inHole = (hole: string, text: string): string | undefined => {
    if (text === '' || hole.endsWith('AsEntered')) return text;
    return text.includes('; ') && !SEVERAL.has(hole) ? undefined : worded(text);
  };

  const inParts = (text: string, mark: string): string | undefined => {
    const parts = text.split(mark);
    if (parts.length < 2) return undefined;
    const said = parts.map(worded);
    return said.every((one) => one !== undefined) ? said.join(mark) : undefined;
  };

  const ended = (text: string): string | undefined => {
    if (!text.endsWith('.')) return undefined;
    const said = worded(text.slice(0, -1));
    return said === undefined ? undefined : `${said}.`;
  };

  const sentences = (text: string): string | undefined => {
    const parts = text.split(/(?<=\.) (?=[A-Z])/);
    if (parts.length < 2) return undefined;
    const said = parts.map(worded);
    return said.every((one) => one !== undefined) ? said.join(' ') : undefined;
  };

  /** The first word of a sentence is written small in its form. */
  const lowered = (text: string): string | undefined => {
    const [first = ''] = text;
    if (first === first.toLowerCase()) return undefined;
    const small = first.toLowerCase() + text.slice(1);
    const said = exact.get(small) ?? byForm(small) ?? counted(small);
    return said === undefined ? undefined : said.charAt(0).toUpperCase() + said.slice(1);
  };

  /** A name with a word beside it, `410 (hand-picked)`, or the last of a list and how many more there are. */
  const bracketed = (text: string): string | undefined => {
    const [, name = '', word = ''] = /^([^()]+) \(([^()]+)\)$/.exec(text) ?? [];
    const said = name === '' ? undefined : worded(word);
    return said === undefined || !isNeutral(name) ? undefined : `${name} (${said})`;
  };

  const counted = (text: string): string | undefined => {
    const [, number = '', noun = ''] = /^(no|\d+) ([a-z ]+)$/.exec(text) ?? [];
    const found = Object.entries(nouns).find(([one]) => noun === one || noun === `${one}s`);
    if (!found) return undefined;
    const [one, several] = found[1];
    if (number === '1') return `1 ${one}`;
    return `${number === 'no' ? 'keine' : number} ${several}`;
  };

  const neutral = (text: string): string | undefined => (isNeutral(text) ? numeral(text, language) : undefined);

  return {
    sentence: (stored) =>
      stored === '' ? '' : (worded(stored) ?? filled(catalogue[QUOTED] ?? '{text}', { text: stored })),
    name: (stored) => worded(stored) ?? stored,
  };
}

/** Holes that hold a share or a chance, whose number stands apart from its sign. */
const SHARES = new Set(['share', 'confidence', 'level', 'chance']);
const SHARE = '((?:(?:less|more) than )?[\\d.]+(?: %)?|never|always|half|none)';

/** Holes that may hold several parts of a sentence. */
const SEVERAL = new Set([
  'assumptions',
  'because',
  'earlier',
  'effects',
  'first',
  'made',
  'points',
  'power',
  'reasons',
  'stages',
  'what',
  'why',
]);

/** The form in which a sentence is quoted that is known in English only. */
export const QUOTED = 'quoted: {text}';

function knownForm(form: string, said: string): KnownForm {
  const holes: string[] = [];
  const parts = form.split(/\{(\w+)\}/);
  const source = parts
    .map((part, index) => {
      if (index % 2 === 0) return part.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
      holes.push(part);
      // The same hole twice holds the same twice.
      const first = holes.indexOf(part);
      return first < holes.length - 1 ? `\\${first + 1}` : SHARES.has(part) ? SHARE : '([\\s\\S]*?)';
    })
    .join('');
  const letters = parts.filter((_, index) => index % 2 === 0).join('').length;
  return {
    form,
    pattern: new RegExp(`^${source}$`),
    holes: holes.filter((hole, index) => holes.indexOf(hole) === index),
    said,
    letters,
  };
}

const UNITS =
  /^(?:kPa|MPa|bar|psi|mm|kg|g|oz|lb|in|J|kJ|N|kN|lbf|s|min|h|°C|°F|K|k|r|U|w|x|y|m|ms|ft·lbf|mph|km|Hz|±|=|%)$/;

/** Numbers with their units, codes and keys: what is written the same in every language. */
function isNeutral(text: string): boolean {
  return text
    .split(/[\s,;:()/.]+/)
    .filter((word) => word !== '')
    .every((word) => /\d/.test(word) || /^[A-Z\u2212+-][A-Z\d_-]*$/.test(word) || UNITS.test(word));
}
