import { type Duty } from '@breakbook/lab';

/** A page of the rail. */
export interface Noun {
  word: string;
  address: string;
  /** Only people with one of these duties see it; left out where everyone may. */
  duties?: readonly Duty[];
}

/** The rail, in the order in which a day's work meets them. */
export const NOUNS: readonly Noun[] = [{ word: 'Lots', address: '/lots' }];
