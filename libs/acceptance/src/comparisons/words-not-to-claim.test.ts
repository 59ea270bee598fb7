import { describe, expect, it } from 'vitest';
import { wordsNotToClaim } from './words-not-to-claim.js';

const words = (text: string) => wordsNotToClaim(text).map(({ word }) => word);

describe('wordsNotToClaim', () => {
  it.each([
    ['The item is a fake.', ['fake']],
    ['Clearly counterfeit goods, a forgery of the Dunlin 42.', ['counterfeit', 'forgery']],
    ['Item X is not genuine.', ['not genuine']],
    ['Item X is a genuine wheel.', ['genuine']],
    ['These are genuine units.', ['genuine']],
    ['It is an original.', ['is an original']],
    ['Both have the same origin.', ['same origin']],
    ['It was made by another shop.', ['made by']],
    ['Equivalent because no difference was found.', ['Equivalent because no difference']],
    ['An unsafe brand.', ['unsafe brand']],
    ['The probability that it is what it says is 3 %.', ['probability that it is']],
    ['This proves that they agree.', ['proves that']],
    ['Das ist eine Fälschung, ein Plagiat.', ['Fälschung', 'Plagiat']],
    ['Das Laufrad ist nicht echt.', ['echt']],
    ['Es sind echte Räder.', ['echte']],
    ['Es ist ein Original.', ['ist ein Original']],
    ['Beide haben die gleiche Herkunft.', ['gleiche Herkunft']],
    ['Von Saltmarsh hergestellt.', ['Von Saltmarsh hergestellt']],
    ['Eine gefährliche Marke.', ['gefährliche Marke']],
  ])('stops %j', (text, stopped) => {
    expect(words(text)).toEqual(stopped);
    for (const { reason } of wordsNotToClaim(text)) expect(reason.length).toBeGreaterThan(30);
  });

  it.each([
    'Does item X agree with the genuine reference in burst pressure?',
    'Genuine units of three lots were drawn at random.',
    'Zehn echte Prüflinge aus drei Losen.',
    'Burst pressure lies below the 99 % prediction bound of the reference.',
    'The original file is kept. The rim was found beside the road.',
    'Die Originaldatei bleibt erhalten; das Rad wurde verglichen.',
    'No difference was found. This does not show common use.',
  ])('lets %j stand', (text) => {
    expect(words(text)).toEqual([]);
  });

  it('tells what stands in another claim only once', () => {
    expect(words('The probability that it is genuine is high.')).toEqual(['probability that it is', 'genuine']);
    expect(wordsNotToClaim('')).toEqual([]);
  });
});
