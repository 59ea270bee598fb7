import { expect, it } from 'vitest';
import { inWords } from './in-words.js';

it.each([
  ['lateralRunOutBefore', 'lateral run out before'],
  ['rimPressure2', 'rim pressure 2'],
  ['time', 'time'],
])('%s is told as "%s"', (name, words) => expect(inWords(name)).toBe(words));
