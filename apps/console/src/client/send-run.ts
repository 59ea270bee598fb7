import type { NewRun, RecordedAnswer } from './answers.js';
import { problemOf, serviceAway } from './problem-answer.js';

/** How much of an upload has left this device. */
export interface Sent {
  bytes: number;
  of: number;
}

/**
 * Sends a run with its files as one form. Under one key the service makes one run however often it is sent.
 * `XMLHttpRequest`, because `fetch` does not say how far an upload is.
 */
export function sendRun(
  key: string,
  run: NewRun,
  files: readonly File[],
  onProgress: (sent: Sent) => void,
): Promise<RecordedAnswer> {
  const form = new FormData();
  form.append('run', new Blob([JSON.stringify(run)], { type: 'application/json' }), 'run.json');
  for (const file of files) form.append('file', file, file.name);
  return sendForm<RecordedAnswer>('/api/runs', form, { 'idempotency-key': key }, onProgress);
}

/** Sends a form and tells how far it is. */
export function sendForm<T>(
  path: string,
  form: FormData,
  headers: Record<string, string>,
  onProgress: (sent: Sent) => void,
): Promise<T> {
  return new Promise((resolve, reject) => {
    const request = new XMLHttpRequest();
    request.open('POST', path);
    request.responseType = 'json';
    request.setRequestHeader('accept', 'application/json');
    for (const [name, value] of Object.entries(headers)) request.setRequestHeader(name, value);
    request.upload.addEventListener('progress', ({ loaded, total }) => onProgress({ bytes: loaded, of: total }));
    request.addEventListener('error', () => reject(serviceAway()));
    request.addEventListener('load', () => {
      if (request.status >= 200 && request.status < 300) resolve(request.response as T);
      else reject(problemOf(request.status, request.response));
    });
    request.send(form);
  });
}
