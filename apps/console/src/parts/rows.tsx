import type { ReactNode } from 'react';
import './rows.css';

interface RowsProps<Row> {
  rows: readonly Row[];
  /** What stands above a row, and what the buttons name: "Feature". */
  thing: string;
  /** A name of its own for a row, beside its place. */
  named?: (row: Row) => string;
  /** A new one. */
  fresh: () => Row;
  /** A list that must not be empty keeps its last row. */
  atLeast?: number;
  onChange: (rows: Row[]) => void;
  children: (row: Row, set: (said: Partial<Row>) => void, index: number) => ReactNode;
}

/** Several of one kind, each filled in by itself. */
export function Rows<Row>({ rows, thing, named, fresh, atLeast = 0, onChange, children }: RowsProps<Row>) {
  return (
    <div className="rows-of">
      {rows.map((row, index) => {
        const name = named?.(row) ?? '';
        const title = `${thing} ${index + 1}${name === '' ? '' : `: ${name}`}`;
        return (
          // biome-ignore lint/suspicious/noArrayIndexKey: a row has no identity but its place while it is typed
          <fieldset key={index} className="row-of">
            <legend>
              <bdi>{title}</bdi>
            </legend>
            {children(
              row,
              (said) => onChange(rows.map((one, place) => (place === index ? { ...one, ...said } : one))),
              index,
            )}
            {rows.length > atLeast && (
              <button
                type="button"
                className="plain"
                aria-label={`Take away ${title}`}
                onClick={() => onChange(rows.filter((_, place) => place !== index))}
              >
                Take away
              </button>
            )}
          </fieldset>
        );
      })}
      <button type="button" className="action" onClick={() => onChange([...rows, fresh()])}>
        {rows.length === 0 ? `Add a ${thing.toLowerCase()}` : `Add another ${thing.toLowerCase()}`}
      </button>
    </div>
  );
}
