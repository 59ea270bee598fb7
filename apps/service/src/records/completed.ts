import { Refusal, schemaProblems } from '@breakbook/lab';
import { z } from 'zod';

/**
 * What a person sent, together with what the service says of it, such as who and when, as its schema has the whole.
 * Refused by the places of what was sent; `field` is the one of the body that holds it, where it is not the whole body.
 */
export function completed<T extends z.ZodType>(schema: T, value: object, field?: 'content'): z.infer<T> {
  const whole = field === undefined ? value : { [field]: value };
  const parsed = (field === undefined ? schema : z.strictObject({ [field]: schema })).safeParse(whole);
  if (!parsed.success) throw new Refusal(schemaProblems(parsed.error, whole));
  return (field === undefined ? parsed.data : (parsed.data as Record<string, unknown>)[field]) as z.infer<T>;
}
