import { Instant, Key, Line, Paragraph } from '@breakbook/lab';
import { z } from 'zod';
import { Standing } from './standing.js';

/** A thing of the lab as it is answered: its name and number, the version in force, and who said it when and why. */
export function keptOf<T extends z.ZodType>(content: T) {
  return z.strictObject({
    key: Key,
    /** Given once and never again. */
    number: z.number().int().min(1),
    version: z.number().int().min(1),
    at: Instant,
    by: Key,
    /** Why it was changed; a first version needs none. */
    reason: Paragraph.optional(),
    content,
  });
}

/** A method, layout, limit or plan in its last revision, and how that stands. */
export function definitionOf<T extends z.ZodType>(content: T) {
  return keptOf(content).extend({ standing: Standing });
}

/** One revision of such a thing, and how it stands. */
export function standingRevisionOf<T extends z.ZodType>(content: T) {
  return definitionOf(content).omit({ key: true, number: true });
}

/** One version of what is said of a thing. */
export function versionOf<T extends z.ZodType>(content: T) {
  return keptOf(content).omit({ key: true, number: true });
}

/** A piece of a list, and where the next one begins; null at its end. */
export function pageOf<T extends z.ZodType>(item: T) {
  return z.strictObject({ items: z.array(item), next: z.string().nullable() });
}

/** A change: what holds from now on, and why. */
export function changeTo<T extends z.ZodType>(content: T) {
  return z.strictObject({ reason: Paragraph, content });
}

export interface Kept<C> extends KeptVersion<C> {
  key: string;
  number: number;
}

export interface KeptVersion<C> {
  version: number;
  at: string;
  by: string;
  reason?: string;
  /** Of what one person proposes and another approves. */
  standing?: Standing;
  content: C;
}

export interface Change<C> {
  reason: string;
  content: C;
}

export interface PageOf<T> {
  items: T[];
  next: string | null;
}

/** Why something is done, where nothing else is said. */
export const Because = z.strictObject({ reason: Line });
export type Because = z.infer<typeof Because>;
