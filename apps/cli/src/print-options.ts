import { LANGUAGES, type Language, type PrintChoice, type PrintUnits, Refusal } from '@breakbook/lab';

export interface PrintOptions {
  paper: string;
  language?: string;
  units?: string;
}

/** Units as they are named on the command line. */
const UNITS: Readonly<Record<string, PrintUnits>> = {
  kPa: { pressure: 'kPa' },
  bar: { pressure: 'bar' },
  psi: { pressure: '[psi]' },
  C: { temperature: 'Cel' },
  F: { temperature: '[degF]' },
  J: { energy: 'J' },
  'ft-lbf': { energy: '[ft_i].[lbf_av]' },
  N: { force: 'N' },
  lbf: { force: '[lbf_av]' },
  mm: { length: 'mm' },
  in: { length: '[in_i]' },
  g: { mass: 'g' },
  oz: { mass: '[oz_av]' },
};

/** How a report is printed, from the options of a command. */
export function printFrom({ paper, language = 'en', units = 'as kept' }: PrintOptions): PrintChoice {
  if (paper !== 'A4' && paper !== 'Letter')
    throw new Refusal({ code: 'query.invalid', detail: `--paper is "${paper}"; it must be A4 or Letter.` });
  if (!isLanguage(language))
    throw new Refusal({
      code: 'query.invalid',
      detail: `--language is "${language}"; it must be ${LANGUAGES.join(' or ')}.`,
    });
  return { paper, language, units: units === 'as kept' ? units : unitsFrom(units) };
}

function isLanguage(word: string): word is Language {
  return LANGUAGES.some((one) => one === word);
}

function unitsFrom(list: string): PrintUnits {
  const chosen: PrintUnits = {};
  for (const name of list.split(',').map((one) => one.trim())) {
    const unit = UNITS[name];
    if (!unit)
      throw new Refusal({
        code: 'query.invalid',
        detail: `--units names "${name}"; known are ${Object.keys(UNITS).join(', ')}.`,
        action: 'Name one unit for each kind of quantity, with commas between them.',
      });
    const [kind] = Object.keys(unit) as (keyof PrintUnits)[];
    if (kind && kind in chosen)
      throw new Refusal({ code: 'query.invalid', detail: `--units names two units of ${kind}: ${list}. Name one.` });
    Object.assign(chosen, unit);
  }
  return chosen;
}
