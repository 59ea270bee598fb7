import type { Layout } from '@breakbook/lab';
import type { LayoutProposal, LayoutTrial } from './answers.js';
import { problemIn, serviceAway } from './problem-answer.js';

/** What a file says of how it is written; nothing of it is kept. */
export function proposalFor(file: File, signal?: AbortSignal): Promise<LayoutProposal> {
  return sent<LayoutProposal>('/api/layouts/proposals', formOf(file), signal);
}

/** What a layout makes of a file; neither is kept. */
export function trialOf(file: File, layout: Layout, signal?: AbortSignal): Promise<LayoutTrial> {
  const form = new FormData();
  form.append('layout', new Blob([JSON.stringify(layout)], { type: 'application/json' }), 'layout.json');
  return sent<LayoutTrial>('/api/layouts/trials', formOf(file, form), signal);
}

/** The bytes of an unread file's part, under the name it was sent by. */
export async function unreadPart(address: string, name: string, signal?: AbortSignal): Promise<File> {
  const answer = await fetch(address, signal ? { signal } : {}).catch(failed);
  if (!answer.ok) throw await problemIn(answer);
  return new File([await answer.blob()], name);
}

function formOf(file: File, form = new FormData()): FormData {
  form.append('file', file, file.name);
  return form;
}

async function sent<T>(path: string, form: FormData, signal: AbortSignal | undefined): Promise<T> {
  const answer = await fetch(path, {
    method: 'POST',
    headers: { accept: 'application/json' },
    body: form,
    ...(signal ? { signal } : {}),
  }).catch(failed);
  if (!answer.ok) throw await problemIn(answer);
  return answer.json() as Promise<T>;
}

/** A request that was given up is nobody's fault; any other that fails never reached the service. */
function failed(error: unknown): never {
  throw error instanceof DOMException && error.name === 'AbortError' ? error : serviceAway();
}
