import { expect, it } from 'vitest';
import { openDocument } from './open-document.js';
import { PAPERS } from './paper.js';
import { FONT_FILES } from './type.js';

it('numbers its fonts alike, whichever is asked for first', () => {
  const numbers = (files: string[]) => {
    const doc = openDocument(PAPERS.A4, {
      title: 'A title',
      creator: 'A lab',
      issuedAt: new Date('2026-11-26T12:00:00Z'),
      software: 'none',
      attached: [],
    });
    const found = files.map((file) => [file, (doc.font(file) as unknown as { _font: { id: string } })._font.id]);
    return Object.fromEntries(found);
  };
  const files = Object.values(FONT_FILES);
  expect(numbers(files.toReversed())).toEqual(numbers(files));
});
