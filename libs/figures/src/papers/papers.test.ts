import { describe, expect, it } from 'vitest';
import type { Scene } from '../scene.js';
import { sceneToPaths } from './paths.js';
import { sceneToSvg } from './svg.js';

const hostile = `</text><script>alert('1')</script>&"`;

const scene: Scene = {
  width: 100,
  height: 50,
  title: `Lot ${hostile}`,
  alt: `What ${hostile} shows`,
  caption: '',
  marks: [
    {
      mark: 'line',
      points: [
        [0, 0],
        [10.126, 20],
      ],
      stroke: { ink: 'petrol', width: 0.6, dash: [3, 2] },
    },
    {
      mark: 'area',
      points: [
        [0, 0],
        [10, 0],
        [10, 10],
      ],
      fill: 'wash',
      stroke: { ink: 'ink', width: 1 },
    },
    { mark: 'dot', at: [20, 20], radius: 3, form: 'disc', ink: 'ink', part: 'specimen', note: hostile },
    { mark: 'dot', at: [30, 20], radius: 3, form: 'ring', ink: 'ink' },
    { mark: 'text', text: hostile, at: [5, 40], size: 7, anchor: 'end', ink: 'ink', strong: true },
  ],
};

describe('sceneToSvg', () => {
  const svg = sceneToSvg(scene, { theme: 'page', id: 'lot-7' });

  it('is an image with a name and a description (WAI-ARIA 1.2, role img)', () => {
    expect(svg).toContain('role="img" aria-labelledby="lot-7-title" aria-describedby="lot-7-alt"');
    expect(svg).toContain('<title id="lot-7-title">Lot &lt;/text&gt;');
    expect(svg).toContain('<desc id="lot-7-alt">What &lt;/text&gt;');
  });

  it('lets no name become markup', () => {
    expect(svg).not.toContain('<script');
    expect(svg.match(/&lt;script&gt;alert\(&#39;1&#39;\)&lt;\/script&gt;&amp;&quot;/g)).toHaveLength(4);
  });

  it('takes its colours from the page, with light ones to fall back on, and carries no style', () => {
    expect(svg).toContain('stroke="var(--figure-petrol, #0E5A66)"');
    expect(svg).not.toMatch(/style[=>]/);
    expect(sceneToSvg(scene, { theme: 'dark' })).toContain('stroke="#67C3D0"');
  });

  it('closes every element it opens', () => {
    const open: string[] = [];
    for (const [, closing, name = '', own] of svg.matchAll(/<(\/?)([a-z]+)[^<>]*?(\/?)>/g)) {
      if (closing) expect(open.pop()).toBe(name);
      else if (!own) open.push(name);
    }
    expect(open).toEqual([]);
  });

  it('refuses an id that could break out of its attribute', () => {
    expect(() => sceneToSvg(scene, { theme: 'light', id: 'a"b' })).toThrow('letters, digits and dashes');
  });
});

describe('sceneToPaths', () => {
  it('gives one command a mark, in order, lengths to a hundredth of a point', () => {
    const commands = sceneToPaths(scene);
    expect(commands.map(({ draw }) => draw)).toEqual(['path', 'path', 'path', 'path', 'text']);
    expect(commands[0]).toEqual({
      draw: 'path',
      d: 'M0 0L10.13 20',
      stroke: { colour: '#0E5A66', width: 0.6, dash: [3, 2] },
    });
    expect(commands[2]).toMatchObject({ d: 'M17 20a3 3 0 1 0 6 0a3 3 0 1 0 -6 0Z', fill: '#1D2125' });
    expect(commands[4]).toMatchObject({ text: hostile, x: 5, y: 40, anchor: 'end', strong: true });
  });
});
