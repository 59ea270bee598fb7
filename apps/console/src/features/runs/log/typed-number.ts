/** A number as typed into a form, or what is to be written instead. Nothing is guessed. */
export function typedNumber(text: string): { value: number } | { said: string } {
  const typed = text.trim();
  if (/^[+-]?\d+(\.\d+)?$/.test(typed)) return { value: Number(typed) };
  if (/^[+-]?\d+,\d+$/.test(typed))
    return { said: `“${typed}” has a comma, which could part thousands or decimals. Write a decimal point.` };
  if (typed === '') return { said: 'A number is missing.' };
  return {
    said: `“${typed}” is no number. Write digits, with a point before decimals, and choose the unit beside it.`,
  };
}
