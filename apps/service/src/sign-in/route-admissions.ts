import type { INestApplication } from '@nestjs/common';
import { ModulesContainer } from '@nestjs/core';
import { servedHandlers } from '../http/served-handlers.js';
import { AGAIN, BEFORE_SECOND_FACTOR, DUTY, GIVEN_PASSPHRASE, type RouteDuty } from './duty.decorator.js';

/** What a route asks of whoever calls it. */
export interface RouteAdmission {
  /** Without it nobody is let in. */
  duty?: RouteDuty | undefined;
  again: boolean;
  givenPassphrase: boolean;
  beforeSecondFactor?: 'giving' | 'adding' | undefined;
}

export const OPEN: RouteAdmission = { duty: 'anybody', again: false, givenPassphrase: true };

/** What each route of the application asks, by its method and address as they are registered: `GET /api/lots/:lot`. */
export function admissionsOf(app: INestApplication): Map<string, RouteAdmission> {
  return new Map(
    servedHandlers(app.get(ModulesContainer)).map(({ method, address, handler }) => [
      `${method} ${address}`,
      admissionOf(handler),
    ]),
  );
}

export function admissionOf(handler: object): RouteAdmission {
  return {
    duty: Reflect.getMetadata(DUTY, handler) as RouteDuty | undefined,
    again: Reflect.hasMetadata(AGAIN, handler),
    givenPassphrase: Reflect.hasMetadata(GIVEN_PASSPHRASE, handler),
    beforeSecondFactor: Reflect.getMetadata(BEFORE_SECOND_FACTOR, handler) as RouteAdmission['beforeSecondFactor'],
  };
}
