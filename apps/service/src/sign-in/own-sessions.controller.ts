import { Instant, Refusal } from '@breakbook/lab';
import { Controller, Get, HttpCode, Param, Post } from '@nestjs/common';
import { z } from 'zod';
import { Answers } from '../openapi/answers.decorator.js';
import { Duty } from './duty.decorator.js';
import { Sessions } from './sessions.js';
import { SignedIn, type SignedInActor } from './signed-in.decorator.js';

const OwnSessions = z.strictObject({
  items: z.array(
    z.strictObject({
      id: z.string(),
      beganAt: Instant,
      /** To the minute. */
      seenAt: Instant,
      /** What the browser calls itself. */
      device: z.string(),
      /** It is the one that asks. */
      this: z.boolean(),
    }),
  ),
});

/** Where one is signed in, and ending it there. */
@Controller('api/me/sessions')
export class OwnSessionsController {
  constructor(private readonly sessions: Sessions) {}

  @Get()
  @Duty('signed in')
  @Answers('Where you are signed in, the latest first.', OwnSessions)
  async list(@SignedIn() by: SignedInActor): Promise<z.infer<typeof OwnSessions>> {
    const items = await this.sessions.list(by.labId, by.personId);
    return {
      items: items.map(({ id, beganAt, seenAt, device }) => ({
        id,
        beganAt: beganAt.toISOString(),
        seenAt: seenAt.toISOString(),
        device,
        this: id === by.sessionId,
      })),
    };
  }

  @Post('ending')
  @Duty('signed in')
  @HttpCode(204)
  @Answers('Ends every session of yours but this one.')
  async endOthers(@SignedIn() by: SignedInActor): Promise<void> {
    await this.sessions.endOwn(by.labId, by.personId, { allBut: by.sessionId ?? '' });
  }

  @Post(':session/ending')
  @Duty('signed in')
  @HttpCode(204)
  @Answers('Ends one session of yours.')
  async end(@Param('session') session: string, @SignedIn() by: SignedInActor): Promise<void> {
    if (!(await this.sessions.endOwn(by.labId, by.personId, { only: session })))
      throw new Refusal({ code: 'request.not-found', detail: 'There is no such session, or it is not yours.' });
  }
}
