import type { CharacteristicValue } from '@breakbook/lab';
import { unitSymbol } from '@breakbook/units';
import { createContext, type ReactNode, useContext, useMemo, useState } from 'react';
import { remember, remembered } from '../remembered.js';
import { type KnownQuantity, quantitiesIn } from './known-quantities.js';
import {
  type Beside,
  printAmount,
  printDeclaredNumber,
  printNumber,
  printPure,
  printUncertainty,
  printValue,
  type ReaderChoice,
  withSymbol,
} from './print-value.js';
import { FIRST_UNITS, READER_UNITS, type Switched, shownUnit, type UnitChoice } from './reader-unit.js';
import { retell } from './retell.js';

interface Reader {
  choice: ReaderChoice;
  choose: (change: Partial<ReaderChoice>) => void;
}

const ReaderContext = createContext<Reader | undefined>(undefined);
const KnownContext = createContext<readonly KnownQuantity[]>([]);

const DIGITS = ['rounded', 'full'] as const;

/** One choice of units and digits for the whole page: every number on a sheet changes at once. */
export function ReaderProvider({ children }: { children: ReactNode }) {
  const [choice, setChoice] = useState<ReaderChoice>(() => ({
    units: rememberedUnits(),
    digits: remembered('digits', DIGITS, 'rounded'),
  }));
  const reader = useMemo<Reader>(
    () => ({
      choice,
      choose: (change) => {
        const next = { ...choice, ...change };
        for (const [quantity, unit] of Object.entries(next.units)) remember(`unit of ${quantity}`, unit);
        remember('digits', next.digits);
        setChoice(next);
      },
    }),
    [choice],
  );
  return <ReaderContext value={reader}>{children}</ReaderContext>;
}

function rememberedUnits(): UnitChoice {
  const of = <Quantity extends Switched>(quantity: Quantity) =>
    remembered<UnitChoice[Quantity]>(`unit of ${quantity}`, READER_UNITS[quantity], FIRST_UNITS[quantity]);
  return { pressure: of('pressure'), temperature: of('temperature'), energy: of('energy'), force: of('force') };
}

/** The record whose sentences are told below: their printed numbers are converted from its exact ones. */
export function ToldFrom({ record, children }: { record: unknown; children: ReactNode }) {
  const known = useMemo(() => quantitiesIn(record), [record]);
  return <KnownContext value={known}>{children}</KnownContext>;
}

export function useReader(): Reader {
  const reader = useContext(ReaderContext);
  if (!reader) throw new Error('A page that prints numbers stands inside a ReaderProvider.');
  return reader;
}

/** The printing functions, bound to what this reader chose. */
export function usePrint() {
  const { choice } = useReader();
  const known = useContext(KnownContext);
  return useMemo(
    () => ({
      choice,
      value: (value: CharacteristicValue, unit: string, beside?: Beside) => printValue(value, unit, choice, beside),
      amount: (value: CharacteristicValue, unit: string, beside?: Beside) => printAmount(value, unit, choice, beside),
      number: (value: number, unit: string, beside?: Beside) => printNumber(value, unit, choice, beside),
      quantity: (value: number, unit: string, beside?: Beside) =>
        withSymbol(printNumber(value, unit, choice, beside), unit, choice),
      /** A number that was declared or keyed: as it was given in its own unit. */
      declared: (value: number, unit: string) => withSymbol(printDeclaredNumber(value, unit, choice), unit, choice),
      /** A number without a unit. */
      pure: (value: number) => printPure(value, choice),
      uncertainty: (expanded: number, unit: string) => printUncertainty(expanded, unit, choice),
      symbol: (unit: string) => unitSymbol(shownUnit(unit, choice.units)),
      tell: (sentence: string) => retell(sentence, choice.units, known),
    }),
    [choice, known],
  );
}
