/** What every answer of the service carries, as it is meant to be: written down apart from the code that sends it. */
export const ALWAYS: Record<string, RegExp> = {
  'content-security-policy':
    /^(default-src 'none'; script-src 'self'; style-src 'self'; |sandbox; default-src 'none'$)/,
  'x-content-type-options': /^nosniff$/,
  'referrer-policy': /^no-referrer$/,
  'cross-origin-opener-policy': /^same-origin$/,
  'cross-origin-resource-policy': /^same-origin$/,
};
/** Neither lets another site's page read it, nor tells what answers. */
const NEVER = ['access-control-allow-origin', 'access-control-allow-credentials', 'x-powered-by', 'server'];
/** Of what the interface answers: no cache keeps it, but that of whoever was given what never changes, or a small picture for a day. */
const KEPT = /^(no-store|private, max-age=(86400|31536000, immutable))$/;

/** What is wrong with the headers of an answer; nothing where it carries all it should. */
export function wrongHeaders(headers: Headers, { path, secure = false }: { path: string; secure?: boolean }): string[] {
  const wrong = (name: string, value: RegExp) =>
    value.test(headers.get(name) ?? '') ? [] : [`${name}: ${headers.get(name)}`];
  return [
    ...Object.entries(ALWAYS).flatMap(([name, value]) => wrong(name, value)),
    ...NEVER.flatMap((name) => (headers.has(name) ? [`${name}: ${headers.get(name)}`] : [])),
    ...(path.startsWith('/api') ? wrong('cache-control', KEPT) : []),
    ...(secure ? wrong('strict-transport-security', /^max-age=31536000$/) : []),
  ];
}
