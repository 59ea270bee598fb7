// @vitest-environment jsdom
import { cleanup, render, screen } from '@testing-library/react';
import { afterEach, expect, it } from 'vitest';
import { problemOf } from '../client/problem-answer.js';
import { Field } from './field.js';
import { ProblemsBeside, ProblemsElsewhere } from './problems-beside.js';

afterEach(cleanup);

const refused = (...errors: { pointer: string; detail: string; code?: string; found?: string }[]) =>
  problemOf(422, { detail: errors[0]?.detail, errors: errors.map((one) => ({ code: 'body.range', ...one })) });

function shown(error: Error | null, within?: string) {
  render(
    <ProblemsBeside error={error} {...(within === undefined ? {} : { within })}>
      <Field label="Title" at="/title" />
      <Field label="Margin" at="/tool/margin" hint="In kPa." />
      <ProblemsElsewhere />
    </ProblemsBeside>,
  );
  return { title: screen.getByLabelText('Title'), margin: screen.getByLabelText('Margin') };
}

const saidOf = (field: HTMLElement) =>
  (field.getAttribute('aria-describedby') ?? '')
    .split(' ')
    .flatMap((id) => document.getElementById(id)?.textContent ?? []);

it('tells beside a field what was refused of it or below it, and puts the cursor there', () => {
  const { title, margin } = shown(
    refused({ pointer: '/content/tool/margin/0', detail: '/content/tool/margin/0: must lie below 0.' }),
    '/content',
  );
  expect(saidOf(margin)).toEqual(['In kPa.', 'Must lie below 0.']);
  expect(margin.getAttribute('aria-invalid')).toBe('true');
  expect(document.activeElement).toBe(margin);
  expect([title.hasAttribute('aria-invalid'), saidOf(title)]).toEqual([false, []]);
  expect(screen.getByRole('alert').textContent).toContain('One thing is to be mended');
});

it('says of an empty field that nothing is filled in, once', () => {
  const { title } = shown(
    refused(
      { pointer: '/title', code: 'body.text-invalid', found: '', detail: '/title: Too small.' },
      { pointer: '/title', code: 'body.range', found: '', detail: '/title: must not be blank.' },
    ),
  );
  expect(saidOf(title)).toEqual(['Nothing is filled in here.']);
});

it('tells at the end what stands beside no field, whole', () => {
  shown(refused({ pointer: '/units/3', detail: '/units/3: is of another product.' }));
  expect(screen.getByRole('alert').textContent).toContain('/units/3: is of another product.');
});
