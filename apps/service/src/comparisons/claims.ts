import { type Problem, Refusal } from '@breakbook/lab';
import { acceptance } from '../arithmetic.js';

/** Refuses free text that claims what no comparison can show, word by word with the reason. */
export async function refuseClaims(
  texts: Readonly<Record<string, string | readonly string[] | undefined>>,
): Promise<void> {
  const { wordsNotToClaim } = await acceptance();
  const problems = Object.entries(texts).flatMap(([pointer, text]) =>
    placed(pointer, text).flatMap(([place, one]) =>
      wordsNotToClaim(one).map(
        ({ word, reason }): Problem => ({
          code: 'body.text-invalid',
          pointer: place,
          found: word,
          detail: `${place}: "${word}" is not for a lab to say: ${reason}.`,
          action: 'Say what was seen or measured, and how well it agrees.',
        }),
      ),
    ),
  );
  if (problems.length > 0) throw new Refusal(problems);
}

function placed(pointer: string, text: string | readonly string[] | undefined): [string, string][] {
  if (text === undefined) return [];
  return typeof text === 'string' ? [[pointer, text]] : text.map((one, index) => [`${pointer}/${index}`, one]);
}
