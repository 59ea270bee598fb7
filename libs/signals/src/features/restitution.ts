import { type ImpactMethod, isNotEvaluated } from '@breakbook/lab';
import type { Computed } from './characteristic.js';
import { reboundSpeed } from './impact-forces.js';
import type { Strike } from './impact-source.js';
import { impactSpeed } from './impact-speed.js';
import { momentumOf } from './momentum.js';
import { inUnit, percent, ratio } from './words.js';

const newtonSeconds = inUnit('N·s');

/**
 * How much of its speed did the striker get back?
 *
 *     e = v_r / v_i
 *
 * with the rebound by the gate where it was timed, else by integration of the force. Beside it stands whether the momentum
 * of both speeds is that of the force.
 *
 * Newton's coefficient of restitution.
 */
export function restitution(strike: Strike, method: ImpactMethod): Computed {
  const before = impactSpeed(strike, method);
  const after = reboundSpeed(strike, method);
  for (const { value } of [before, after]) if (isNotEvaluated(value)) return { value, unit: '1', steps: [] };
  if (isNotEvaluated(before.value) || isNotEvaluated(after.value)) throw new Error('both were looked at');
  if (before.value.kind === 'between' || after.value.kind === 'between') throw new Error('a speed is one number');

  const [incoming, outgoing] = [before.value.value, after.value.value];
  const e = outgoing / incoming;
  const balance = momentumOf(strike, method);
  const most = method.parameters.momentumShare;
  return {
    value: { kind: 'exact', value: e },
    unit: '1',
    ...(after.source === undefined ? {} : { source: after.source }),
    ...(balance && balance.off > most
      ? {
          caution: `speeds and force disagree by ${percent(balance.off)} of the momentum, and the method lets ${percent(most)} pass`,
        }
      : {}),
    steps: [
      ...before.steps,
      ...after.steps,
      {
        question: 'How much of its speed did the striker get back?',
        numbers: { 'v_i, m/s': incoming, 'v_r, m/s': outgoing, e },
        answer: `${ratio(e)}: e = v_r / v_i.`,
      },
      ...(balance
        ? [
            {
              question: 'Do the speeds and the force agree?',
              numbers: {
                'm (v_i + v_r), N·s': balance.exchanged,
                '∫ (F − m g) dt, N·s': balance.byForce,
                apart: balance.off,
              },
              answer: `${newtonSeconds(balance.exchanged)} by the speeds, ${newtonSeconds(balance.byForce)} by the force: ${percent(balance.off)} apart.`,
            },
          ]
        : []),
    ],
    sensitivity: (channel) => {
      const change = after.sensitivity?.(channel);
      return change === undefined ? undefined : change / incoming;
    },
  };
}
