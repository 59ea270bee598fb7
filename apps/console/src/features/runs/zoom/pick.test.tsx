// @vitest-environment jsdom
import { cleanup, fireEvent, render } from '@testing-library/react';
import { afterEach, describe, expect, it, vi } from 'vitest';
import type { WindowOfChannel } from '../../../client/answers.js';
import { ReaderProvider } from '../../../parts/units/reader.js';
import { ZoomedTrace } from './zoomed-trace.js';

afterEach(cleanup);

const time = Array.from({ length: 101 }, (_, i) => i / 10);
const WINDOW: WindowOfChannel = {
  channel: 'rimPressure',
  unit: 'kPa',
  from: 0,
  to: 10,
  samples: time.length,
  whole: true,
  time,
  values: time,
};

describe('pressing a trace', () => {
  it.each([
    ['at its left edge gives the first sample', 0, 0],
    ['at its right edge gives the last', 1, 10],
  ])('%s', (_, share, expected) => {
    const onPick = vi.fn();
    const { container } = render(
      <ReaderProvider>
        <ZoomedTrace of={WINDOW} title="Rim pressure" events={[]} onPick={onPick} />
      </ReaderProvider>,
    );
    const figure = container.querySelector('figure');
    const svg = container.querySelector('svg');
    if (!figure || !svg) throw new Error('a trace is a figure');
    Object.defineProperty(figure, 'clientWidth', { value: 800 });
    svg.getBoundingClientRect = () => ({ left: 100, right: 900, width: 800 }) as DOMRect;
    fireEvent.click(svg, { clientX: 100 + share * 800 });
    expect(onPick).toHaveBeenCalledWith(expected);
    // Beside the picture is no moment.
    fireEvent.click(figure, { clientX: 950 });
    expect(onPick).toHaveBeenCalledTimes(1);
  });
});
