import { filled, type Say } from '@breakbook/lab';

/** Every form of words that a figure adds to what it is handed. */
export type FigureForm =
  | '{quantity}, {first} above, {second} below'
  | '{quantity}, logarithmic'
  | 'at least'
  | 'at least {value}'
  | 'at most {value}'
  | 'at most'
  | 'below the limit, %'
  | 'between'
  | 'between {lower} and {upper}'
  | 'broke'
  | 'broke ({n})'
  | 'future units keep within'
  | 'half break at {value}'
  | 'held'
  | 'held ({n})'
  | 'known from one side'
  | 'lower bound, {level}: {value}'
  | 'upper bound, {level}: {value}'
  | '{bound}, outside the picture'
  | '{lot}, lower bound: {value}'
  | 'order of the strikes'
  | 'result ({n})'
  | 'broken ({n})'
  | 'chance to pass, %'
  | 'gauge'
  | 'absolute'
  | 'hold at least ({n})'
  | 'lower bound at its tip, estimate at its end'
  | 'outside the claim ({n})'
  | 'share broken, %'
  | 'specimen in the claim ({n})'
  | 'time, {unit}'
  | '{title} ({n})'
  | '{first} to {last}'
  | 'lognormal line, median {median}, log s {sd}'
  | 'normal line, mean {mean}, s {sd}'
  | 'Weibull line, shape {shape}, scale {scale}';

/** How a figure words what it adds, and how it writes numbers. */
export interface FigureLanguage {
  say: Say<FigureForm>;
  numeral: (printed: string) => string;
}

export const ENGLISH: FigureLanguage = { say: (form, ...[values]) => filled(form, values), numeral: (text) => text };
