import type { ReactNode } from 'react';

interface RowsProps<T extends { id: string }> {
  rows: readonly T[];
  /** What one row is, for its name: "Measurement". */
  what: string;
  onRows: (rows: T[]) => void;
  fresh: () => T;
  add: string;
  children: (row: T, set: (change: Partial<T>) => void, index: number) => ReactNode;
}

/** Things of one kind, as many as there are; each can be taken away again. */
export function Rows<T extends { id: string }>({ rows, what, onRows, fresh, add, children }: RowsProps<T>) {
  return (
    <div className="rows">
      {rows.map((row, index) => (
        <fieldset key={row.id}>
          <legend>
            {what} {index + 1}
          </legend>
          {children(
            row,
            (change) => onRows(rows.map((one) => (one.id === row.id ? { ...one, ...change } : one))),
            index,
          )}
          <button
            type="button"
            className="plain"
            onClick={() => onRows(rows.filter((one) => one.id !== row.id))}
            aria-label={`Take away ${what.toLowerCase()} ${index + 1}`}
          >
            Take away
          </button>
        </fieldset>
      ))}
      <button type="button" className="action" onClick={() => onRows([...rows, fresh()])}>
        {add}
      </button>
    </div>
  );
}
