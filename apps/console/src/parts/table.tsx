import { type ReactNode, useId } from 'react';
import './table.css';

export interface Column<Row> {
  head: ReactNode;
  /** Numbers stand at the right, aligned at their decimal sign. */
  number?: boolean;
  /** Sentences need room where the table scrolls. */
  wide?: boolean;
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
    <div className="table">
      <p className="caption" id={id}>
        {caption}
      </p>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reachable by keyboard (WCAG 2.1.1) */}
      <section className="scroll" tabIndex={0} aria-labelledby={id}>
        <table aria-labelledby={id}>
          <thead>
            <tr>
              {columns.map((column, index) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: columns are fixed; their place is their identity
                <th key={index} scope="col" className={classOf(column)}>
                  {column.head}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map((row, rowIndex) => (
              <tr key={rowKey(row)}>
                {columns.map((column, index) => {
                  const Cell = index === 0 ? 'th' : 'td';
                  return (
                    // biome-ignore lint/suspicious/noArrayIndexKey: columns are fixed; their place is their identity
                    <Cell key={index} scope={index === 0 ? 'row' : undefined} className={classOf(column)}>
                      {column.cell(row, rowIndex)}
                    </Cell>
                  );
                })}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </div>
  );
}

function classOf({ number, wide }: { number?: boolean; wide?: boolean }): string | undefined {
  if (number) return 'number';
  return wide ? 'wide' : undefined;
}
