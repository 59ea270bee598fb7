import { z } from 'zod';

/** The languages a document can be written in. */
export const LANGUAGES = ['en', 'de'] as const;
export const Language = z.enum(LANGUAGES);
export type Language = z.infer<typeof Language>;

/** Names of the holes of a form: of `{n} of {of}` they are `n` and `of`. */
export type Holes<Form extends string> = Form extends `${string}{${infer Hole}}${infer Rest}`
  ? Hole | Holes<Rest>
  : never;

/** What fills the holes of a form; nothing where it has none. */
export type Filling<Form extends string> = [Holes<Form>] extends [never]
  ? []
  : [values: Record<Holes<Form>, string | number>];

/** Words a sentence of known forms. The English form is its own name, so that English needs no catalogue. */
export type Say<Forms extends string> = <Form extends Forms>(form: Form, ...filling: Filling<Form>) => string;

/** English forms, each with the same sentence in another language; one that is missing does not compile. */
export type Catalogue<Forms extends string> = { readonly [Form in Forms]: string };

/** A sentence with its holes filled. */
export function filled(form: string, values: Readonly<Record<string, string | number>> = {}): string {
  return form.replace(/\{(\w+)\}/g, (_, hole: string) => `${values[hole]}`);
}

/** Words sentences in one language. */
export function sayer<Forms extends string>(
  language: Language,
  catalogues: Readonly<Record<Exclude<Language, 'en'>, Catalogue<Forms>>>,
): Say<Forms> {
  const catalogue = language === 'en' ? undefined : catalogues[language];
  return (form, ...[values]) => filled(catalogue?.[form] ?? form, values);
}

/** A printed number as this language writes it: German has a comma before the decimals (DIN 1333). */
export function numeral(printed: string, language: Language): string {
  return language === 'de' ? printed.replace(/(?<=\d)\.(?=\d)/g, ',') : printed;
}

const PRESSURES = ['kPa', 'bar', '[psi]'] as const;

/** Units in which a document prints what is stored in others; a kind left out stays as it is kept. */
export const PrintUnits = z.strictObject({
  pressure: z.enum(PRESSURES).optional(),
  temperature: z.enum(['Cel', '[degF]']).optional(),
  energy: z.enum(['J', '[ft_i].[lbf_av]']).optional(),
  force: z.enum(['N', '[lbf_av]']).optional(),
  length: z.enum(['mm', '[in_i]']).optional(),
  mass: z.enum(['g', '[oz_av]']).optional(),
});
export type PrintUnits = z.infer<typeof PrintUnits>;

/** On what, in which language and in which units a document is printed. */
export const PrintChoice = z.strictObject({
  paper: z.enum(['A4', 'Letter']),
  language: Language,
  units: z.union([z.literal('as kept'), PrintUnits]),
});
export type PrintChoice = z.infer<typeof PrintChoice>;

/** How a document is printed where nothing is chosen. */
export const PLAIN_PRINT: PrintChoice = { paper: 'A4', language: 'en', units: 'as kept' };

/** The choice as a content keeps it: undefined where it is the plain one, which needs no words. */
export function printKept({ paper, language, units }: PrintChoice): PrintChoice | undefined {
  const chosen = units === 'as kept' || Object.values(units).every((unit) => unit === undefined) ? 'as kept' : units;
  const plain = paper === PLAIN_PRINT.paper && language === PLAIN_PRINT.language && chosen === PLAIN_PRINT.units;
  return plain ? undefined : { paper, language, units: chosen };
}
