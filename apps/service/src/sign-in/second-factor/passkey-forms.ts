import { Line } from '@breakbook/lab';
import { z } from 'zod';

/** Bytes as Web Authentication writes them in JSON (base64url). */
const Bytes = z
  .string()
  .max(20_000)
  .regex(/^[\w-]+$/);

/** A passkey that a browser has made: what of its answer is looked at. */
export const NewPasskey = z.strictObject({
  /** How its owner tells it from others. */
  name: Line,
  id: Bytes,
  clientDataJSON: Bytes,
  attestationObject: Bytes,
  transports: z.array(z.enum(['ble', 'cable', 'hybrid', 'internal', 'nfc', 'smart-card', 'usb'])).max(7),
});
export type NewPasskey = z.infer<typeof NewPasskey>;

/** What a passkey has signed. */
export const PasskeyAnswer = z.strictObject({
  id: Bytes,
  clientDataJSON: Bytes,
  authenticatorData: Bytes,
  signature: Bytes,
});
export type PasskeyAnswer = z.infer<typeof PasskeyAnswer>;

/** What the browser is handed as it is: PublicKeyCredentialCreationOptionsJSON or ...RequestOptionsJSON. */
export const PasskeyOptions = z.looseObject({ challenge: z.string() });
