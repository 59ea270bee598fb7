import readline from 'node:readline';
import { EXIT, type Problem, Refusal } from '@breakbook/lab';
import { printProblem } from './refusals.js';

/** Whom the service is asked as. */
export interface ServiceCaller {
  /** Its address, such as http://127.0.0.1:8080. */
  service: string;
  person?: string;
  /** Where the service has several labs. */
  lab?: string;
  /** What the person's code generator shows, where they have one. */
  code?: string;
}

interface Sent {
  path: string;
  mediaType: string;
  body: Uint8Array | string;
}

/**
 * Signs a person in by the passphrase on standard input, sends one thing in their name, and signs out. Answers what the
 * service answered, or, where it refused or is away, the exit status after saying why.
 */
export async function sendToService(caller: ServiceCaller, sent: Sent): Promise<unknown> {
  const { person, lab, code } = caller;
  if (person === undefined)
    throw new Refusal({
      code: 'query.invalid',
      parameter: '--person',
      detail: 'Without --dry-run the table is sent in somebody’s name, and none is given.',
      action: 'Give --person with the name you sign in with, and your passphrase on standard input.',
    });
  const service = serviceAt(caller.service);
  let cookie = '';
  const ask = async ({ path, mediaType, body }: Sent): Promise<Response> => {
    const answer = await fetch(new URL(path, service), {
      method: 'POST',
      headers: { accept: 'application/json', 'content-type': mediaType, cookie },
      body: typeof body === 'string' ? body : new Blob([body as Uint8Array<ArrayBuffer>]),
    });
    cookie = answer.headers.get('set-cookie')?.split(';')[0] ?? cookie;
    if (!answer.ok) throw new Refused(answer.status, (await answer.json().catch(() => ({}))) as Refused['answer']);
    return answer;
  };
  const json = (path: string, body: unknown) =>
    ask({ path, mediaType: 'application/json', body: JSON.stringify(body) });
  try {
    const passphrase = await passphraseFor(person);
    const me = (await (
      await json('/api/sign-in', { person, passphrase, ...(lab === undefined ? {} : { lab }) })
    ).json()) as { secondFactor?: string };
    if (me.secondFactor === 'owed') await json('/api/me/second-factor', { code: code ?? '' });
    const answer: unknown = await (await ask(sent)).json();
    await json('/api/sign-out', {}).catch(() => undefined);
    return answer;
  } catch (error) {
    if (error instanceof Refused) return said(error);
    // What fetch throws where nobody answers.
    if (!(error instanceof TypeError)) throw error;
    console.error(`The service at ${service.origin} gives no answer. Start it, or name its address with --service.`);
    return EXIT.away;
  }
}

class Refused extends Error {
  constructor(
    readonly status: number,
    readonly answer: Partial<Problem> & { errors?: Problem[]; errorCount?: number },
  ) {
    super(`refused with ${status}`);
  }
}

function said({ status, answer }: Refused): number {
  const problems = answer.errors ?? (answer.code === undefined ? [] : [answer as Problem]);
  for (const problem of problems) console.error(printProblem(problem));
  if (problems.length === 0) console.error(`The service answered with ${status} and no word.`);
  const more = (answer.errorCount ?? 0) - problems.length;
  if (more > 0) console.error(`... and ${more} more.`);
  if ([400, 413, 415, 422].includes(status)) return EXIT.badInput;
  if ([503, 507].includes(status)) return EXIT.away;
  return status >= 500 ? EXIT.ourFault : EXIT.refused;
}

function serviceAt(address: string): URL {
  const url = URL.canParse(address) ? new URL(address) : undefined;
  if (url?.protocol === 'http:' || url?.protocol === 'https:') return url;
  throw new Refusal({
    code: 'query.invalid',
    parameter: '--service',
    detail: `${address} is no address of a service.`,
    expected: 'an address such as http://127.0.0.1:8080',
  });
}

/** The first line of standard input; typed at a terminal it is not shown. */
function passphraseFor(person: string): Promise<string> {
  const { stdin, stderr } = process;
  if (stdin.isTTY) stderr.write(`Passphrase of ${person}: \u001b[8m`);
  const lines = readline.createInterface({ input: stdin, terminal: false });
  return new Promise((resolve) => {
    const end = (line: string) => {
      if (stdin.isTTY) stderr.write('\u001b[28m');
      lines.removeAllListeners('close');
      lines.close();
      resolve(line);
    };
    lines.once('line', end);
    lines.once('close', () => end(''));
  });
}
