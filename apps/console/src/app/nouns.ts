import type { Duty } from '@breakbook/lab';

/** A page of the rail. */
export interface Noun {
  word: string;
  address: string;
  /** Only people with one of these duties see it; left out where everyone signed in may. */
  duties?: readonly Duty[];
}

/** The rail, in the order in which a day's work meets them. */
const NOUNS: readonly Noun[] = [
  { word: 'Lots', address: '/lots' },
  { word: 'Log a run', address: '/log', duties: ['record'] },
  { word: 'Specimens', address: '/specimens' },
  { word: 'Rigs', address: '/rigs' },
  { word: 'Plan a test', address: '/planning' },
  { word: 'Compare', address: '/comparisons' },
  { word: 'Unread files', address: '/unread' },
  { word: 'Approvals', address: '/approvals', duties: ['define', 'audit'] },
  { word: 'Nonconformities', address: '/nonconformities' },
  { word: 'Concessions', address: '/concessions' },
  { word: 'Safety flags', address: '/safety-flags' },
  { word: 'Keeping', address: '/keeping' },
  { word: 'Documents', address: '/documents' },
  { word: 'Certificates', address: '/certificates' },
  { word: 'Old results', address: '/old-results' },
  { word: 'Ledger', address: '/ledger' },
  { word: 'People', address: '/people' },
];

/** The nouns that these duties open. */
export function nounsFor(held: readonly Duty[]): readonly Noun[] {
  return NOUNS.filter(({ duties }) => duties === undefined || duties.some((duty) => held.includes(duty)));
}
