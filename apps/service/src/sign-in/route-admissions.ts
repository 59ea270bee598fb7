import { type INestApplication, RequestMethod, type Type } from '@nestjs/common';
import { METHOD_METADATA, PATH_METADATA } from '@nestjs/common/constants.js';
import { MetadataScanner, ModulesContainer } from '@nestjs/core';
import { AGAIN, DUTY, GIVEN_PASSPHRASE, type RouteDuty } from './duty.decorator.js';

/** What a route asks of whoever calls it. */
export interface RouteAdmission {
  /** Without it nobody is let in. */
  duty?: RouteDuty | undefined;
  again: boolean;
  givenPassphrase: boolean;
}

export const OPEN: RouteAdmission = { duty: 'anybody', again: false, givenPassphrase: true };

/** What each route of the application asks, by its method and address as they are registered: `GET /api/lots/:lot`. */
export function admissionsOf(app: INestApplication): Map<string, RouteAdmission> {
  const scanner = new MetadataScanner();
  const admissions = new Map<string, RouteAdmission>();
  for (const { controllers } of app.get(ModulesContainer).values())
    for (const { metatype } of controllers.values()) {
      const prototype = (metatype as Type).prototype as Record<string, object>;
      for (const name of scanner.getAllMethodNames(prototype)) {
        const handler = prototype[name];
        if (!handler || !Reflect.hasMetadata(METHOD_METADATA, handler)) continue;
        const method = RequestMethod[Reflect.getMetadata(METHOD_METADATA, handler) as number] ?? '';
        for (const path of addressesOf(metatype as Type, handler))
          admissions.set(`${method} ${path}`, admissionOf(handler));
      }
    }
  return admissions;
}

function addressesOf(controller: Type, handler: object): string[] {
  const pathsOf = (target: object) => [Reflect.getMetadata(PATH_METADATA, target) as string | string[]].flat();
  return pathsOf(controller).flatMap((base) =>
    pathsOf(handler).map(
      (path) =>
        `/${[base, path]
          .flatMap((part) => part.split('/'))
          .filter(Boolean)
          .join('/')}`,
    ),
  );
}

function admissionOf(handler: object): RouteAdmission {
  return {
    duty: Reflect.getMetadata(DUTY, handler) as RouteDuty | undefined,
    again: Reflect.hasMetadata(AGAIN, handler),
    givenPassphrase: Reflect.hasMetadata(GIVEN_PASSPHRASE, handler),
  };
}
