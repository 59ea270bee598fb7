import { z } from 'zod';

/**
 * Text typed by a person or read from a file: kept letter by letter, but refused where no person could have meant it.
 * PostgreSQL cannot hold U+0000, and a lone surrogate changes when it is encoded, so that hashed would differ from sent.
 */
export function text(longest: number) {
  return z
    .string()
    .min(1)
    .max(longest)
    .refine((value) => value.trim() !== '', { error: 'must not be blank', params: { code: 'body.text-invalid' } })
    .refine((value) => value.isWellFormed(), { error: 'holds a lone surrogate', params: { code: 'body.text-invalid' } })
    .refine((value) => !hasControlCharacter(value), {
      error: 'holds a control character',
      params: { code: 'body.text-invalid' },
    });
}

/** One line of text, as in a name or a reason. */
export const Line = text(300);
export const Paragraph = text(4000);

/** C0 controls but TAB and LF, DEL, C1 controls, and the line separators that break a log line. */
export function hasControlCharacter(value: string): boolean {
  for (const character of value) {
    const point = character.codePointAt(0) ?? 0;
    if (point < 32 && point !== 9 && point !== 10) return true;
    if ((point >= 127 && point < 160) || point === 0x2028 || point === 0x2029) return true;
  }
  return false;
}

/** Short human key of a thing that is named by the lab: a rig, a method, a plan. */
export const Key = z.string().regex(/^[A-Za-z0-9][A-Za-z0-9._-]{0,39}$/, {
  error: 'must be 1 to 40 letters, digits, dots, dashes or underscores, beginning with a letter or digit',
});

/** A UTC instant or one with its offset, never a local time. */
export const Instant = z.iso.datetime({ offset: true });
export const Day = z.iso.date();

export const Fraction = z.number().gt(0).lt(1);
export const Revision = z.number().int().min(1);
