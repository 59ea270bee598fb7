import { LAYOUT_STATES, LIMIT_STATES, METHOD_STATES, PLAN_STATES } from '@breakbook/lab';
import { lotWithoutRuns } from '../sent-runs.ts';
import type { Answer, Caller } from '../service.ts';
import { type House, type StateRows, taken } from './state-rows.ts';

type Word = 'method' | 'layout' | 'limit' | 'plan';
type Content = Record<string, unknown>;

const bundle = lotWithoutRuns();
/** Whom a proposal of the maker names: whoever has the one duty to define. */
const APPROVER = 'with-define';
const IN_A_YEAR = day(365);
const YESTERDAY = day(-1);

/** A first revision under another name, in force from this day where its kind names one. */
const CONTENT: Record<Word, (key: string, from: string, approvedBy: string) => Content> = {
  method: (method, inForceFrom, approvedBy) => ({ ...called('HOLD-TYRE'), method, inForceFrom, approvedBy }),
  layout: (layout) => ({ ...bundle.layouts[0], layout, rig: layout }),
  limit: (limit, inForceFrom, approvedBy) => ({ ...bundle.limits[0], limit, inForceFrom, approvedBy }),
  plan: (plan, approvedOn, approvedBy) => ({ ...bundle.plan, plan, approvedOn, approvedBy }),
};

function day(offset: number): string {
  return new Date(Date.now() + offset * 86_400_000).toISOString().slice(0, 10);
}

function called(key: string): object {
  return bundle.methods.find(({ method }) => method === key) ?? {};
}

/** A revision as the rows name it. */
function nameOf(answer: Answer): string {
  const { key, content, standing } = answer.body;
  return `${key} ${content.revision} ${standing.proposal}`;
}

async function decide(by: Caller, house: House, thing: string, how: 'approval' | 'declining'): Promise<Answer> {
  const proposal = thing.split(' ')[2];
  const { body } = await house.maker.ask('GET', `/api/proposals/${proposal}`);
  return by.ask('POST', `/api/proposals/${proposal}/${how}`, {
    body: { shown: body.sha256, ...(how === 'declining' ? { because: 'not now' } : {}) },
  });
}

/** How revisions of a kind come into their states: proposed by the maker, approved by somebody else. */
function definitionRows(word: Word, table: StateRows['table']): StateRows {
  const first = async (house: House, by: Caller, key: string, from = YESTERDAY) => {
    // A rig has one layout, so each gets a rig of its own.
    if (word === 'layout') {
      const { content } = (await house.maker.ask('GET', '/api/rigs/R1')).body;
      await house.maker.ask('POST', '/api/rigs', { body: { ...content, rig: key } });
    }
    return by.ask('POST', `/api/${word}s`, { body: { ...CONTENT[word](key, from, approver(house, by)), revision: 1 } });
  };
  const next = (house: House, by: Caller, key: string) =>
    by.ask('POST', `/api/${word}s/${key}/revisions`, {
      body: { reason: 'revised', content: { ...CONTENT[word](key, YESTERDAY, approver(house, by)), revision: 2 } },
    });
  const approver = ({ maker }: House, by: Caller) => (by === maker ? APPROVER : maker.person);
  const proposed = async (house: House, from?: string) => {
    const answer = await first(house, house.maker, house.fresh('D'), from);
    await taken(Promise.resolve(answer));
    return nameOf(answer);
  };
  const approve = (house: House, thing: string) => decide(house.having('define'), house, thing, 'approval');
  const approved = async (house: House, from?: string) => {
    const thing = await proposed(house, from);
    await taken(approve(house, thing));
    return thing;
  };
  const revised = async (house: House, thing: string) => {
    const answer = await next(house, house.maker, thing.split(' ')[0] ?? '');
    await taken(Promise.resolve(answer));
    return nameOf(answer);
  };
  return {
    table,
    into: {
      proposed: (house) => proposed(house),
      declined: async (house) => {
        const thing = await proposed(house);
        await taken(decide(house.maker, house, thing, 'declining'));
        return thing;
      },
      ...(word === 'layout' ? {} : { approved: (house: House) => approved(house, IN_A_YEAR) }),
      'in force': (house) => approved(house),
      replaced: async (house) => {
        const thing = await approved(house);
        await taken(approve(house, await revised(house, thing)));
        return thing;
      },
    },
    ...(word === 'layout' ? { never: { approved: 'it names no day, and is in force once it is approved' } } : {}),
    async stateOf({ maker }, thing) {
      const [key, revision] = thing.split(' ');
      return (await maker.ask('GET', `/api/${word}s/${key}/revisions/${revision}`)).body.standing.state;
    },
    begins: [
      {
        route: `POST /api/${word}s`,
        moves: ['propose'],
        ask: (house, by, key) => first(house, by, key),
        named: nameOf,
      },
      {
        route: `POST /api/${word}s/:${word}/revisions`,
        moves: ['propose'],
        before: async (house) => (await approved(house)).split(' ')[0] ?? '',
        ask: (house, by, key) => next(house, by, key),
        named: nameOf,
      },
    ],
    asks: [
      {
        route: 'POST /api/proposals/:n/approval',
        moves: ['approve'],
        ask: (house, by, thing) => decide(by, house, thing, 'approval'),
      },
      {
        route: 'POST /api/proposals/:n/declining',
        moves: ['decline'],
        ask: (house, by, thing) => decide(by, house, thing, 'declining'),
      },
    ],
  };
}

export const DEFINITION_ROWS: readonly StateRows[] = [
  definitionRows('plan', PLAN_STATES),
  definitionRows('layout', LAYOUT_STATES),
  definitionRows('method', METHOD_STATES),
  definitionRows('limit', LIMIT_STATES),
];
