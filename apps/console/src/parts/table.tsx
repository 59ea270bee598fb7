import { type ReactNode, useId } from 'react';
import './table.css';

export interface Column<Row> {
  head: ReactNode;
  /** Numbers stand at the right, aligned at their decimal sign. */
  number?: boolean;
  cell: (row: Row, index: number) => ReactNode;
}

interface TableProps<Row> {
  caption: ReactNode;
  columns: readonly Column<Row>[];
  rows: readonly Row[];
  rowKey: (row: Row) => string;
  /** Said in place of a table without rows. */
  empty: string;
}

/** A table is a table. Its first column names the row and stays in sight when the others scroll inside their section. */
export function Table<Row>({ caption, columns, rows, rowKey, empty }: TableProps<Row>) {
  const id = useId();
  if (rows.length === 0) return <p className="quiet">{empty}</p>;
  return (
    // Scrolling by keyboard needs a place to stand.
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reachable (WCAG 2.1.1)
    <section className="table" tabIndex={0} aria-labelledby={id}>
      <table>
        <caption id={id}>{caption}</caption>
        <thead>
          <tr>
            {columns.map(({ head, number }, index) => (
              // Columns are fixed; their place is their identity.
              // biome-ignore lint/suspicious/noArrayIndexKey: see above
              <th key={index} scope="col" className={number ? 'number' : undefined}>
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row, rowIndex) => (
            <tr key={rowKey(row)}>
              {columns.map(({ cell, number }, index) =>
                index === 0 ? (
                  // biome-ignore lint/suspicious/noArrayIndexKey: see above
                  <th key={index} scope="row" className={number ? 'number' : undefined}>
                    {cell(row, rowIndex)}
                  </th>
                ) : (
                  // biome-ignore lint/suspicious/noArrayIndexKey: see above
                  <td key={index} className={number ? 'number' : undefined}>
                    {cell(row, rowIndex)}
                  </td>
                ),
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
