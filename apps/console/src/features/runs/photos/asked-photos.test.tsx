// @vitest-environment jsdom
import { cleanup, render, screen, within } from '@testing-library/react';
import { afterEach, expect, it } from 'vitest';
import { AskedPhotosList, photoChoices } from './asked-photos.js';

afterEach(cleanup);

const ASKED = [
  { of: 'whole rim', least: 1, present: 1 },
  { of: 'origin of the fracture', least: 2, present: 1 },
];

it('says of each thing how many photos are asked for, how many are there, and in words which are missing', () => {
  render(<AskedPhotosList asked={ASKED} />);
  const rows = within(screen.getByRole('table', { name: 'Photos that the failure mode asks for' })).getAllByRole('row');
  expect(rows.slice(1).map(({ textContent }) => textContent)).toEqual([
    expect.stringMatching(/whole rim11.*there/),
    expect.stringMatching(/origin of the fracture21.*missing/),
  ]);
});

it('says nothing where none is asked for', () => {
  const { container } = render(<AskedPhotosList asked={[]} />);
  expect(container.textContent).toBe('');
});

it('lets a photo be any of those asked for, or another', () => {
  expect(photoChoices(ASKED).map(({ word }) => word)).toEqual(['another photo', 'whole rim', 'origin of the fracture']);
});
