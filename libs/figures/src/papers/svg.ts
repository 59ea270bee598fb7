import { PALETTES, type Palette } from '../palette.js';
import type { Ink, Mark, Scene } from '../scene.js';
import { type DrawCommand, markToCommand } from './paths.js';

export interface SvgOptions {
  /**
   * Fixed colours, or `page`: custom properties of the page named after the inks (`--figure-ink`, `--figure-petrol` and so on)
   * with the light colours where it sets none.
   */
  theme: 'light' | 'dark' | 'print' | 'page';
  /** Distinguishes several figures on one page; letters, digits and dashes. */
  id?: string;
}

/**
 * The scene as one `svg` element that can stand inside a page or alone in a file. It holds no style sheet and no
 * style attribute, so that a strict content security policy lets it through.
 */
export function sceneToSvg(scene: Scene, { theme, id = 'figure' }: SvgOptions): string {
  if (!/^[A-Za-z][A-Za-z0-9-]*$/.test(id))
    throw new Error(`The id of a figure is letters, digits and dashes, beginning with a letter; got "${id}".`);
  const palette = theme === 'page' ? PAGE_PALETTE : PALETTES[theme];
  const width = round(scene.width);
  const height = round(scene.height);
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" width="${width}pt" height="${height}pt"` +
      ` role="img" aria-labelledby="${id}-title" aria-describedby="${id}-alt" font-family="${FACES}">`,
    `<title id="${id}-title">${escaped(scene.title)}</title>`,
    `<desc id="${id}-alt">${escaped(scene.alt)}</desc>`,
    ...scene.marks.map((mark) => element(mark, markToCommand(mark, palette))),
    '</svg>',
    '',
  ].join('\n');
}

/** The sheet's face where it is there, then the paper's. */
const FACES = "'Source Sans 3', 'DejaVu Sans', Verdana, sans-serif";

const PAGE_PALETTE = Object.fromEntries(
  Object.entries(PALETTES.light).map(([ink, colour]) => [ink, `var(--figure-${ink}, ${colour})`]),
) as Record<Ink, string> satisfies Palette;

function element(mark: Mark, command: DrawCommand): string {
  const part = mark.part === undefined ? '' : ` data-part="${escaped(mark.part)}"`;
  const note = mark.note === undefined ? '' : `<title>${escaped(mark.note)}</title>`;
  if (command.draw === 'text') {
    const anchor = command.anchor === 'start' ? '' : ` text-anchor="${command.anchor}"`;
    const weight = command.strong ? ' font-weight="600"' : '';
    return `<text x="${command.x}" y="${command.y}" font-size="${command.size}" fill="${command.colour}"${anchor}${weight}${part}>${note}${escaped(command.text)}</text>`;
  }
  const stroke = command.stroke
    ? ` stroke="${command.stroke.colour}" stroke-width="${command.stroke.width}"` +
      (command.stroke.dash ? ` stroke-dasharray="${command.stroke.dash.join(' ')}"` : '')
    : '';
  return `<path d="${command.d}" fill="${command.fill ?? 'none'}"${stroke}${part}${note === '' ? '/>' : `>${note}</path>`}`;
}

const ENTITIES: Record<string, string> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' };

/** Text from a name or a file must stay text in a page. */
function escaped(text: string): string {
  return text.replace(/[&<>"']/g, (character) => ENTITIES[character] ?? character);
}

function round(length: number): number {
  return Math.round(length * 100) / 100;
}
