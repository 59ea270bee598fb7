import type { Language } from '@breakbook/lab';

export interface Messages {
  kind: string;
  specimen: (key: string) => string;
  lot: (lot: string) => string;
  caution: string;
  alt: (code: string) => string;
}

export const MESSAGES: Record<Language, Messages> = {
  en: {
    kind: 'Specimen labels',
    specimen: (key) => `Specimen ${key}`,
    lot: (lot) => `lot ${lot}`,
    caution: 'Broken on purpose: do not ride',
    alt: (code) => `Code that says ${code}`,
  },
  de: {
    kind: 'Prüflingsetiketten',
    specimen: (key) => `Prüfling ${key}`,
    lot: (lot) => `Los ${lot}`,
    caution: 'Absichtlich zerstört: nicht fahren',
    alt: (code) => `Code, der ${code} sagt`,
  },
};
