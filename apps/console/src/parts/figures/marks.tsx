import { type Ink, type Mark, markToCommand, PALETTES, type Palette } from '@breakbook/figures';

/** The page's own colours, which change with its light. */
const PAGE_INKS = Object.fromEntries(
  (Object.keys(PALETTES.light) as Ink[]).map((ink) => [ink, `var(--figure-${ink})`]),
) as Palette;

/** Marks as elements of an `svg`: text stays text, and nothing needs a style attribute. */
export function Marks({ marks }: { marks: readonly Mark[] }) {
  return marks.map((mark, index) => {
    // Marks are drawn whole and anew; they have no identity but their place.
    const key = index;
    const command = markToCommand(mark, PAGE_INKS);
    return command.draw === 'text' ? (
      <text
        key={key}
        x={command.x}
        y={command.y}
        fontSize={command.size}
        fill={command.colour}
        textAnchor={command.anchor}
        fontWeight={command.strong ? 600 : undefined}
      >
        {command.text}
      </text>
    ) : (
      <path
        key={key}
        d={command.d}
        fill={command.fill ?? 'none'}
        stroke={command.stroke?.colour}
        strokeWidth={command.stroke?.width}
        strokeDasharray={command.stroke?.dash?.join(' ')}
      >
        {mark.note !== undefined && <title>{mark.note}</title>}
      </path>
    );
  });
}
