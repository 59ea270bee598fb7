import { startAuthentication, startRegistration } from '@simplewebauthn/browser';
import { send } from '../../client/send.js';

/** Has the browser make a passkey and the service keep its public half. Answers recovery codes where there were none. */
export async function addPasskey(name: string): Promise<string[]> {
  const offer = await send('POST /api/me/passkeys/offer');
  const { id, response } = await startRegistration({
    optionsJSON: offer as unknown as Parameters<typeof startRegistration>[0]['optionsJSON'],
  }).catch(inOurWords);
  const { clientDataJSON, attestationObject, transports = [] } = response;
  const body = { name, id, clientDataJSON, attestationObject, transports: transports as 'usb'[] };
  return (await send('POST /api/me/passkeys', { body })).recoveryCodes;
}

/** Has one of the person's passkeys sign what the service asks. */
export async function answerWithPasskey(): Promise<void> {
  const question = await send('POST /api/me/second-factor/passkey/question');
  const { id, response } = await startAuthentication({
    optionsJSON: question as unknown as Parameters<typeof startAuthentication>[0]['optionsJSON'],
  }).catch(inOurWords);
  const { clientDataJSON, authenticatorData, signature } = response;
  await send('POST /api/me/second-factor/passkey', { body: { id, clientDataJSON, authenticatorData, signature } });
}

/** Browsers say little, and each in its own way, of why there was no passkey. */
function inOurWords(): never {
  throw new Error(
    'The browser gave no passkey: it was cancelled, took too long, or there is none here for this person.',
  );
}
