import type { Outcome } from '@breakbook/figures';
import type { SpecimenState } from '@breakbook/lab';
import type { Printing } from './printing.js';

/** Words of decisions and states that no judgement prints, in German. */
const GERMAN: Partial<Record<Outcome | SpecimenState, string>> = {
  accepted: 'angenommen',
  'accepted on concession': 'mit Sonderfreigabe angenommen',
  'not accepted': 'nicht angenommen',
  'in force': 'in Kraft',
  'on hold': 'ausgesetzt',
  superseded: 'ersetzt',
  withdrawn: 'zurückgezogen',
  received: 'eingegangen',
  conditioned: 'konditioniert',
  ready: 'bereit',
  destroyed: 'zerstört',
  retained: 'aufbewahrt',
  disposed: 'entsorgt',
};

/** A word that records are kept in, as a document says it. */
export function termIn({ language, named }: Pick<Printing, 'language' | 'named'>, term: string): string {
  if (language === 'en') return term;
  return (GERMAN as Readonly<Record<string, string>>)[term] ?? named(term);
}
