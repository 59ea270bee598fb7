import type { LotBundle } from '@breakbook/lab';
import type { SignedInCaller, TestService } from '../../service.ts';
import type { WalkedRoutes } from './walked-routes.ts';

/** What every stretch of the walk over all state-changing routes needs. */
export interface Walk {
  service: TestService;
  routes: WalkedRoutes;
  /** A lot of burst runs with files, of which none is made yet. */
  bundle: LotBundle;
  as: (person: string) => SignedInCaller;
}

export const reason = 'for the sake of a walk';

/** The version that is shown, to be followed. */
export async function seen(by: SignedInCaller, at: string): Promise<Record<string, string>> {
  return { 'if-match': (await by.ask('GET', at)).headers.get('etag') ?? '' };
}
