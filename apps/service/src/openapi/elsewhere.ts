import { z } from 'zod';

/**
 * An answer whose form is a type of another room: what a figure shows, drawn by the room that declares it. The
 * description names the type, and the console's client takes it from there.
 */
export function declaredIn<T>(room: 'figures' | 'lab', type: string, description: string) {
  return z.custom<T>().meta({ wire: { type: 'object', description, 'x-type': `@breakbook/${room} ${type}` } });
}
