const KEY = 'place before signing in';

/** The address somebody came to, kept while they are away at the provider. */
export function rememberPlace(): void {
  sessionStorage.setItem(KEY, window.location.pathname + window.location.search);
}

/** That address, once. */
export function placeBefore(): string {
  const place = sessionStorage.getItem(KEY) ?? '/';
  sessionStorage.removeItem(KEY);
  return place.startsWith('/') && !place.startsWith('//') ? place : '/';
}
