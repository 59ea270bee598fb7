import type { Operations } from './generated.js';
import { problemIn, serviceAway } from './problem-answer.js';

type Posted = Extract<keyof Operations, `POST ${string}` | `PUT ${string}`>;
type Part<Route extends Posted, Name extends string> = Pick<Operations[Route], Name & keyof Operations[Route]>;
type Follows<Route extends Posted> = Operations[Route] extends { headers: { 'if-match': string } }
  ? { follows: number }
  : unknown;

/**
 * What a route asks for, as the service describes it. `follows` is the version that a change follows, so that nobody
 * overwrites what another has written meanwhile.
 */
export type Sending<Route extends Posted> = Part<Route, 'path'> & Part<Route, 'body'> & Follows<Route>;

/** Sends something to a route of the service; throws a `ProblemAnswer` that says what went wrong and what to do. */
export async function send<Route extends Posted>(
  route: Route,
  ...[sending]: keyof Sending<Route> extends never ? [] : [Sending<Route>]
): Promise<Operations[Route]['answer']> {
  const {
    path = {},
    body,
    follows,
  }: { path?: Record<string, string>; body?: unknown; follows?: number } = sending ?? {};
  const headers: Record<string, string> = { accept: 'application/json' };
  if (body !== undefined) headers['content-type'] = 'application/json';
  if (follows !== undefined) headers['if-match'] = `"${follows}"`;
  const answer = await fetch(addressOf(route, path), {
    method: route.startsWith('PUT ') ? 'PUT' : 'POST',
    headers,
    ...(body === undefined ? {} : { body: JSON.stringify(body) }),
  }).catch((): never => {
    throw serviceAway();
  });
  if (!answer.ok) throw await problemIn(answer);
  return (answer.status === 204 ? undefined : await answer.json()) as Operations[Route]['answer'];
}

/** "POST /api/jobs/{id}/cancel" with the id filled in, and without the verb. */
function addressOf(route: Posted, path: Record<string, string>): string {
  return route
    .replace(/^[A-Z]+ /, '')
    .replaceAll(/\{(\w+)\}/g, (_, name: string) => encodeURIComponent(path[name] ?? ''));
}
