// @vitest-environment jsdom
import { notEvaluated, type Run } from '@breakbook/lab';
import { cleanup, configure, fireEvent, render, screen, waitFor, within } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Myself, RunRecord } from '../client/answers.js';
import { HOSTILE, lotAnswer, runAnswer } from '../features/lots/invented-answer.fixture.js';
import { App } from './app.js';

// A machine that does other work besides takes its time.
configure({ asyncUtilTimeout: 10_000 });

/** The service as far as these pages ask it. */
const ME: Myself = {
  lab: { lab: 'lab', name: 'Saltmarsh Wheelworks test lab' },
  person: 'p-two',
  name: 'Anneliese Größmann',
  role: 'Head of the lab',
  duties: ['review'],
  givenPassphrase: false,
  secondFactor: 'given',
  secondFactorNeeded: 'signing',
};
const PASSPHRASE = 'rims let go at dawn';
let me: Myself | undefined;

function answerTo(path: string, sent?: { passphrase?: string }): { status: number; body: unknown } {
  const { lot, bundle, figures } = lotAnswer;
  if (path === '/api/sign-in' && sent?.passphrase === PASSPHRASE) me = { ...ME, givenPassphrase: true };
  else if (path === '/api/sign-in')
    return {
      status: 401,
      body: { title: 'Failed', detail: 'This name and passphrase do not fit.', action: 'Try again.' },
    };
  if (path === '/api/me/passphrase' && me) me = ME;
  if (path === '/api/sign-out') me = undefined;
  if (!me) return { status: 401, body: { title: 'Required', detail: 'Nobody is signed in.' } };
  if (path === '/api/me' || path === '/api/sign-in') return { status: 200, body: me };
  if (path === '/api/me/passphrase') return { status: 204, body: undefined };
  const run = /^\/api\/lots\/LOT-1\/runs\/(.+)$/.exec(path)?.[1];
  if (run !== undefined) return { status: 200, body: runAnswer(run) };
  const recorded = bundle.runs.find((one) => path === `/api/runs/${one.run}`);
  if (recorded) return { status: 200, body: recordOf(recorded) };
  const kept = answerWithKept(path);
  if (kept !== undefined) return { status: 200, body: kept };
  if (path === '/api/lots/LOT-1/sheet') return { status: 200, body: lotAnswer };
  if (path.startsWith('/api/specimens?called=')) return { status: 200, body: { items: [], next: null } };
  if (path.startsWith('/api/lots?')) {
    const known = { kind: bundle.lot.kind, size: bundle.lot.size, product: bundle.product, closed: false };
    const { plan, outcome, sentence } = lot;
    const strip = figures[0]?.marginStrip;
    const items = path.includes('after=')
      ? [{ ...known, lot: 'LOT-0', evaluation: notEvaluated('this lot was never evaluated', 'it is evaluated') }]
      : [{ ...known, lot: lot.lot, evaluation: { plan, outcome, sentence, strip } }];
    return { status: 200, body: { items, next: path.includes('after=') ? null : 'cGxhY2U' } };
  }
  return {
    status: 404,
    body: { title: 'Not found', detail: `There is nothing at ${path}.`, action: 'Check the label.' },
  };
}

/** A run as it is recorded, with the version that a decision about it follows. */
function recordOf(run: Run): RunRecord {
  const { plan, lot } = lotAnswer.bundle;
  return {
    number: 1,
    version: 2,
    recordedBy: run.operator,
    recordedAt: run.startedAt,
    lot: lot.lot,
    plan: { plan: plan.plan, revision: plan.revision },
    run,
    files: [],
    measurements: [],
    reading: runAnswer(run.run).reading,
    results: [],
    validity: run.validity?.validity ?? 'not decided',
    photosAsked: [],
  };
}

/** The records that a run's sheet is read against. */
function answerWithKept(path: string): unknown {
  const { lab, people, plan, methods, rigs } = lotAnswer.bundle;
  const said = (content: unknown) => ({ version: 1, at: '2026-03-02T09:00:00Z', by: 'p-two', content });
  const page = (contents: readonly unknown[]) => ({ items: contents.map(said), next: null });
  if (path === '/api/labs') return { items: [said(lab)] };
  if (path === '/api/people?limit=200') return page(people);
  if (path === `/api/plans/${plan.plan}/revisions/${plan.revision}`) return said(plan);
  const method = methods.find((one) => path === `/api/methods/${one.method}/revisions/${one.revision}`);
  if (method) return said(method);
  const rig = rigs.find((one) => path === `/api/rigs/${one.rig}`);
  return rig && said(rig);
}

const asked: string[] = [];

beforeEach(() => {
  asked.length = 0;
  me = ME;
  localStorage.clear();
  vi.stubGlobal('scrollTo', () => undefined);
  vi.stubGlobal('fetch', async (path: string, options: RequestInit) => {
    asked.push(`${options.method ?? 'GET'} ${path}`);
    const { status, body } = answerTo(path, JSON.parse(String(options.body ?? '{}')));
    return new Response(body === undefined ? null : JSON.stringify(body), { status });
  });
});

afterEach(() => {
  cleanup();
  vi.unstubAllGlobals();
});

function open(address: string): HTMLElement {
  window.history.replaceState(null, '', address);
  return render(<App />).container;
}

/** What stands on the sheet; the frame around it, and the choice of how papers are printed, have the names of all units. */
const sheet = (page: HTMLElement) => {
  const main = page.querySelector('main')?.cloneNode(true) as HTMLElement | undefined;
  for (const choice of main?.querySelectorAll('details.units') ?? []) choice.remove();
  return plain(main?.textContent);
};

/** A choice of the reader, in the frame around the sheet. */
const choice = (page: HTMLElement, word: string) =>
  within(page)
    .getAllByLabelText(word)
    .find((one) => one.closest('main') === null) as HTMLElement;

function plain(text: string | null | undefined): string {
  return (text ?? '').replaceAll(/[\u00a0\u202f]/g, ' ');
}

describe('the unit switch', () => {
  it('changes every pressure on a lot sheet at once, and asks the service for nothing', async () => {
    const page = open('/lots/LOT-1');
    await screen.findByRole('heading', { level: 1, name: /LOT-1/ });
    expect(sheet(page)).toContain('1 591 kPa');
    expect(sheet(page)).not.toContain('psi');
    const before = asked.length;

    fireEvent.click(choice(page, 'psi'));
    expect(sheet(page)).not.toContain('kPa');
    // 1591.99 / 6.894757293168 = 230.898 (NIST SP 811, 2008, B.8), a bound and so rounded down; 1500 kPa is 217.557 psi.
    expect(sheet(page)).toContain('Lower bound230.8 psi');
    expect(sheet(page)).toContain('the lower bound so far is 230.8 psi');
    expect(sheet(page)).toContain('at least 217.6 psi (EXT-1 rev. 1)');
    // 1841.55 kPa is 267.094 psi with U = 14.2 kPa = 2.06 psi.
    expect(screen.getByRole('row', { name: /S1 267\.1 2\.1/ })).toBeDefined();
    expect(asked.length).toBe(before);

    fireEvent.click(choice(page, 'kPa'));
    expect(sheet(page)).toContain('Lower bound1 591 kPa');
  });

  it('redraws the figures, scales too', async () => {
    const page = open('/lots/LOT-1');
    await screen.findByRole('heading', { level: 1, name: /LOT-1/ });
    const figure = () => plain(page.querySelector('figure svg')?.textContent);
    expect(figure()).toContain('Burst pressure, kPa (gauge)');
    fireEvent.click(choice(page, 'bar'));
    expect(figure()).toContain('Burst pressure, bar (gauge)');
    expect(figure()).not.toMatch(/kPa|psi/);
    expect(figure()).toContain('Lowest specimen 16.32 bar, limit 15.00 bar.');
  });

  it('is remembered, and shows every digit when asked', async () => {
    const first = open('/lots/LOT-1');
    await screen.findByRole('heading', { level: 1, name: /LOT-1/ });
    fireEvent.click(choice(first, 'bar'));
    cleanup();
    const page = open('/lots/LOT-1');
    await screen.findByRole('heading', { level: 1, name: /LOT-1/ });
    fireEvent.click(choice(page, 'all'));
    expect(sheet(page)).toContain('18.4155');
  });
});

describe('what people and files wrote', () => {
  it.each(['/lots', '/lots/LOT-1', '/lots/LOT-1/runs/1'])('stays text on %s', async (address) => {
    const page = open(address);
    await waitFor(() => expect(sheet(page)).toContain(HOSTILE));
    expect(page.querySelector('img')).toBeNull();
    expect(page.querySelector('[onerror]')).toBeNull();
    expect(page.querySelector('[style]')).toBeNull();
  });

  it('shows a hidden change of direction in a file name', async () => {
    const page = open('/lots/LOT-1/runs/1');
    await waitFor(() => expect(sheet(page)).toContain('\\u202Eexe.csv'));
  });
});

describe('one run', () => {
  it('shows no limit and no verdict before its validity is decided', async () => {
    const page = open('/lots/LOT-1/runs/3');
    await screen.findByText('validity not decided');
    expect(sheet(page)).not.toMatch(/EXT-1|conforms|1 500|Margin/);
    expect(sheet(page)).toContain('Anneliese Größmann');
  });

  it('asks for nothing that holds a limit before then', async () => {
    open('/lots/LOT-1/runs/3');
    await screen.findByText('validity not decided');
    expect(asked.filter((path) => path.includes('sheet') || path.includes('limits'))).toEqual([]);
  });

  it('is decided by whoever may, with a reason where it is invalid', async () => {
    open('/lots/LOT-1/runs/3');
    const decide = await screen.findByRole('button', { name: 'Decide validity' });
    expect(decide.hasAttribute('disabled')).toBe(true);
    fireEvent.click(screen.getByRole('radio', { name: /^Invalid/ }));
    await screen.findByText('An invalid run needs one of the listed reasons.');
    fireEvent.click(screen.getByRole('radio', { name: 'sensor fault' }));
    fireEvent.click(screen.getByRole('button', { name: 'Decide: invalid' }));
    await waitFor(() => expect(asked).toContain('POST /api/runs/3/validity'));
  });

  it('is not decided by whoever made it, who hears why', async () => {
    me = { ...ME, person: 'p-one' };
    open('/lots/LOT-1/runs/3');
    await screen.findByText(/This is a run of your own: you recorded it, made it and examined the specimen\./);
    expect(screen.queryByRole('button', { name: /Decide/ })).toBeNull();
  });

  it('shows each verdict in words, with its margin, once it is', async () => {
    const page = open('/lots/LOT-1/runs/1');
    const section = (await screen.findByRole('heading', { name: 'Does it conform?' })).closest('section');
    expect(within(section as HTMLElement).getByText('conforms')).toBeDefined();
    expect(sheet(page)).toContain('Margin to the limit+342 kPa');
  });
});

describe('the list of lots', () => {
  it('shows older lots when asked, one that was never evaluated with its reason', async () => {
    const page = open('/lots');
    fireEvent.click(await screen.findByRole('button', { name: 'Show older lots' }));
    await screen.findByText('LOT-0');
    expect(sheet(page)).toContain('2 in all: 1 undecided, 1 not evaluated');
    expect(sheet(page)).toContain('This lot was never evaluated. Possible if it is evaluated.');
    expect(screen.queryByRole('button', { name: 'Show older lots' })).toBeNull();
  });
});

describe('the scan field', () => {
  const scan = (code: string) => {
    const field = screen.getByLabelText('Scan or type a lot, run or specimen');
    fireEvent.change(field, { target: { value: code } });
    fireEvent.submit(field.closest('form') as HTMLFormElement);
  };

  it('takes the cursor at "/" and opens what a code names', async () => {
    open('/lots');
    await screen.findByText('LOT-1');
    fireEvent.keyDown(document.body, { key: '/' });
    expect(document.activeElement?.id).toBe('scan');
    scan('s2');
    await screen.findByRole('heading', { level: 1, name: /Run 2/ });
    scan('lot lot-1');
    await screen.findByRole('heading', { level: 1, name: /Lot LOT-1/ });
  });

  it('says so when nothing is called that', async () => {
    open('/lots');
    await screen.findByText('LOT-1');
    scan('9999');
    await screen.findByText(/No lot, run, specimen or serial here is called “9999”/);
  });
});

describe('signing in', () => {
  const type = (label: string, text: string) =>
    fireEvent.change(screen.getByLabelText(label), { target: { value: text } });

  it('asks at the address a person came to, says what was wrong, and opens it', async () => {
    me = undefined;
    const page = open('/lots/LOT-1');
    await screen.findByRole('heading', { level: 1, name: 'Breakbook Sign in' });
    expect(page.textContent).not.toContain('LOT-1');
    type('Name to sign in with', 'p-two');
    type('Passphrase', 'wrong');
    fireEvent.click(screen.getByRole('button', { name: 'Sign in' }));
    await screen.findByText('This name and passphrase do not fit. Try again.');

    type('Passphrase', PASSPHRASE);
    fireEvent.click(screen.getByRole('button', { name: 'Sign in' }));
    await screen.findByRole('heading', { level: 1, name: 'Breakbook Choose your own passphrase' });
    type('Passphrase you were given', PASSPHRASE);
    type('Own passphrase', 'wheels turn until they break');
    type('Own passphrase, once more', 'wheels turn until they brake');
    const choose = screen.getByRole('button', { name: 'Choose this passphrase' });
    fireEvent.click(choose);
    await screen.findByText('The two new passphrases are not alike. Type the same one twice.');
    expect(asked).not.toContain('POST /api/me/passphrase');
    type('Own passphrase, once more', 'wheels turn until they break');
    fireEvent.click(choose);
    await screen.findByRole('heading', { level: 1, name: /Lot LOT-1/ });
  });

  it('asks again when a session has ended, and forgets what was shown when a person signs out', async () => {
    const page = open('/lots');
    await screen.findByText('LOT-1');
    me = undefined;
    fireEvent.click(screen.getByText('LOT-1'));
    await screen.findByRole('heading', { level: 1, name: 'Breakbook Sign in' });
    expect(page.textContent).not.toContain('Anneliese');
  });
});

describe('when something is not there', () => {
  it('says what, and what to do', async () => {
    open('/lots/NONE');
    const alert = await screen.findByRole('alert');
    expect(alert.textContent).toContain('There is nothing at /api/lots/NONE/sheet.');
    expect(alert.textContent).toContain('Check the label.');
  });

  it('says when the service does not answer', async () => {
    vi.stubGlobal('fetch', async () => Promise.reject(new TypeError('failed')));
    open('/lots');
    expect((await screen.findByRole('alert')).textContent).toContain('The service does not answer');
  });
});
