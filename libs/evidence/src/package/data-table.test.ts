import { describe, expect, it } from 'vitest';
import { type DataTable, formatTable, readTable, whyNoTable } from './data-table.js';
import { cellAsWritten, harmlessCell } from './harmless-cells.js';

/** What OWASP names as the beginnings of a formula in a spreadsheet ("CSV Injection"), and a zero byte. */
const BEGINNINGS = ['=', '+', '-', '@', '\t', '\r', '\u0000'];

describe('a text in a cell', () => {
  it.each(BEGINNINGS)('that begins with %j begins otherwise, and comes back as it was', (beginning) => {
    for (const before of ['', "'", "''"]) {
      const text = `${before}${beginning}1+1`;
      expect(harmlessCell(text)).toBe(`'${text}`);
      expect(cellAsWritten(harmlessCell(text))).toBe(text);
    }
  });

  it.each(['plain', "'quoted'", ' =1', '1=1', '', '\u22125 as a word', '90\u00b0'])('%j stays as it is', (text) => {
    expect(harmlessCell(text)).toBe(text);
    expect(cellAsWritten(text)).toBe(text);
  });
});

const TABLE: DataTable = {
  name: 'things',
  title: 'Things',
  schema: {
    fields: [
      { name: 'thing', type: 'string', description: 'what', constraints: { required: true } },
      { name: 'value', type: 'number', description: 'how much' },
      { name: 'count', type: 'integer', description: 'how many' },
      { name: 'sure', type: 'boolean', description: 'sure?' },
      { name: 'at', type: 'datetime', description: 'when' },
      { name: 'on', type: 'date', description: 'which day' },
    ],
    primaryKey: ['thing'],
    missingValues: [''],
  },
  rows: [
    { thing: '-2+3', value: -2.5e-9, count: -7, sure: true, at: '2031-03-04T09:00:00.5+01:00', on: '2031-03-04' },
    { thing: 'a "b", c\r\nd', value: 1e21 },
    { thing: ' blank at both ends ' },
  ],
};

describe('a table', () => {
  it('comes back as it was written: numbers as numbers, text letter by letter', () => {
    const csv = formatTable(TABLE);
    expect(csv.split('\r\n')[1]).toBe("'-2+3,-2.5e-9,-7,true,2031-03-04T09:00:00.5+01:00,2031-03-04");
    expect(whyNoTable(csv, TABLE.schema)).toBeUndefined();
    expect(readTable(csv).map(({ thing, value }) => [thing, Number(value)])).toEqual([
      ['-2+3', -2.5e-9],
      ['a "b", c\r\nd', 1e21],
      [' blank at both ends ', 0],
    ]);
  });

  it.each([
    ['another header', 'thing,value,count,sure,on,at\r\n', 'line 1'],
    ['a cell too many', 'thing,value,count,sure,at,on\r\na,1,1,true,,,\r\n', 'Invalid Record Length'],
    ['no thing', 'thing,value,count,sure,at,on\r\n,1,1,true,,\r\n', 'row 2: thing must be string and not empty'],
    ['a word for a number', 'thing,value,count,sure,at,on\r\na,high,1,true,,\r\n', 'row 2: value must be number'],
    ['a broken whole number', 'thing,value,count,sure,at,on\r\na,1,1.5,true,,\r\n', 'row 2: count must be integer'],
    [
      'a time without zone',
      'thing,value,count,sure,at,on\r\na,1,1,true,2031-03-04T09:00:00,\r\n',
      'at must be datetime',
    ],
    ['a key twice', 'thing,value,count,sure,at,on\r\na,1,,,,\r\na,2,,,,\r\n', 'row 3 has the thing of a row before'],
    ['a quote that is never closed', 'thing,value,count,sure,at,on\r\n"a,1,,,,\r\n', 'Quote Not Closed'],
  ])('with %s does not fit', (_, csv, because) => {
    expect(whyNoTable(csv, TABLE.schema)).toContain(because);
  });

  it('is not written where a cell is of another kind than its column', () => {
    for (const value of [Number.NaN, Number.POSITIVE_INFINITY, 'one'])
      expect(() => formatTable({ ...TABLE, rows: [{ thing: 'a', value }] })).toThrow('value must be number');
    expect(() => formatTable({ ...TABLE, rows: [{ thing: '' }] })).toThrow('thing must be string');
  });
});
