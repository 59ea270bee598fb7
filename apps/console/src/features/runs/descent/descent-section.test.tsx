// @vitest-environment jsdom
import { QueryClientProvider } from '@tanstack/react-query';
import { cleanup, configure, fireEvent, render, screen, within } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { newQueryClient } from '../../../client/queries.js';
import { ReaderProvider } from '../../../parts/units/reader.js';
import type { RunOnSheet } from '../use-run-sheet.js';
import { DescentSection } from './descent-section.js';

configure({ asyncUtilTimeout: 10_000 });

const exact = (characteristic: string, unit: string, value: number) => ({
  characteristic,
  title: characteristic,
  unit,
  value: { kind: 'exact', value },
  steps: [],
});
const SHEET = {
  answer: {
    reading: {
      characteristics: [
        exact('timeConstant', 's', 90),
        exact('thermalResistance', 'K/W', 0.3),
        exact('brakingEnergy', 'J', 400_000),
        exact('peakTemperature', 'Cel', 190),
      ],
    },
  },
  around: {
    method: { test: 'heat', parameters: { stages: [{ airSpeed: { value: 30, unit: 'km/h' } }] } },
  },
} as unknown as RunOnSheet;

const spread = (value: number) => ({ standard: value / 20, lower: 0.9 * value, upper: 1.1 * value });
/** In the form of the calculator; not its numbers. */
const RESULT = {
  power: 500,
  powerHere: 300,
  duration: 432,
  energyHere: 129_600,
  thermalResistance: 0.338,
  timeConstant: 101.3,
  temperature: 119.9,
  stepwise: 119.9,
  steadyTemperature: 121.4,
  exponent: { value: 0.65, halfWidth: 0.15 },
  extrapolated: true,
  spread: {
    powerHere: spread(300),
    energyHere: spread(129_600),
    temperature: spread(119.9),
    trials: 10_000,
    seed: 1,
  },
  takenAsExact: ['ambient'],
  caution: 'This compares. It never says that a descent is safe.',
};

let asked: { path: string; body: Record<string, unknown> }[];
let answer: object;
beforeEach(() => {
  asked = [];
  answer = { method: 'field-comparison', result: RESULT };
  vi.stubGlobal('fetch', async (path: string, { body }: { body: string }) => {
    asked.push({ path, body: JSON.parse(body) });
    return Response.json(answer);
  });
});
afterEach(() => {
  cleanup();
  vi.unstubAllGlobals();
});

function show(sheet: RunOnSheet = SHEET) {
  return render(
    <QueryClientProvider client={newQueryClient()}>
      <ReaderProvider>
        <DescentSection {...sheet} />
      </ReaderProvider>
    </QueryClientProvider>,
  );
}
const press = () => fireEvent.click(screen.getByRole('button', { name: 'Set beside this run' }));

describe('a descent beside a run', () => {
  it('stands under its caution before anything is asked', () => {
    show();
    expect(screen.getByText(/It never says that a descent is safe: defer to the maker/)).toBeTruthy();
    expect(asked).toEqual([]);
  });

  it('asks the calculator and shows both, with the caution of the answer', async () => {
    show();
    fireEvent.change(screen.getByLabelText('Slope, %'), { target: { value: '8' } });
    press();
    const table = await screen.findByRole('table');
    expect(asked).toMatchObject([{ path: '/api/compute', body: { method: 'field-comparison', slope: 0.08 } }]);
    expect(within(table).getByText('Temperature of the rim at the end').closest('tr')?.textContent).toContain('190');
    expect(screen.getByText(RESULT.caution)).toBeTruthy();
    const page = screen.getByRole('status').textContent;
    expect(page).toContain('Taken as exact: ambient.');
    expect(page).toContain('more than twice, or less than half');
  });

  it('takes the answer away when something else is typed', async () => {
    show();
    press();
    await screen.findByRole('table');
    fireEvent.change(screen.getByLabelText('Speed, km/h'), { target: { value: '15' } });
    expect(screen.queryByRole('table')).toBeNull();
  });

  it('says what is to be written, and asks nothing', async () => {
    show();
    fireEvent.change(screen.getByLabelText('Speed, km/h'), { target: { value: 'fast' } });
    press();
    expect((await screen.findByText(/is no number/)).textContent).toContain('Speed, km/h');
    expect(asked).toEqual([]);
  });

  it('says why there is no answer', async () => {
    answer = {
      method: 'field-comparison',
      notEvaluated: { because: 'no brake is needed', possibleIf: 'the slope is steeper' },
    };
    show();
    press();
    expect(await screen.findByText('No brake is needed. Possible if the slope is steeper.')).toBeTruthy();
  });

  it('is not there for a run of another kind', () => {
    const method = { test: 'impact' } as RunOnSheet['around']['method'];
    const { container } = show({ ...SHEET, around: { ...SHEET.around, method } });
    expect(container.textContent).toBe('');
  });
});
