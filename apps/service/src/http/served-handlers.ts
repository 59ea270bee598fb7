import { RequestMethod, type Type } from '@nestjs/common';
import { METHOD_METADATA, PATH_METADATA } from '@nestjs/common/constants.js';
import { MetadataScanner, type ModulesContainer } from '@nestjs/core';

/** A method of a controller that answers at an address. */
export interface ServedHandler {
  /** Such as GET. */
  method: string;
  /** As it is registered: `/api/lots/:lot`. */
  address: string;
  controller: Type;
  name: string;
  handler: object;
}

/** Every method of every controller that answers somewhere, in the order the modules give them. */
export function servedHandlers(modules: ModulesContainer): ServedHandler[] {
  const scanner = new MetadataScanner();
  return [...modules.values()].flatMap(({ controllers }) =>
    [...controllers.values()].flatMap(({ metatype }) => {
      const controller = metatype as Type;
      const prototype = controller.prototype as Record<string, object>;
      return scanner.getAllMethodNames(prototype).flatMap((name) => {
        const handler = prototype[name];
        if (!handler || !Reflect.hasMetadata(METHOD_METADATA, handler)) return [];
        const method = RequestMethod[Reflect.getMetadata(METHOD_METADATA, handler) as number] ?? '';
        return addressesOf(controller, handler).map((address) => ({ method, address, controller, name, handler }));
      });
    }),
  );
}

function addressesOf(controller: Type, handler: object): string[] {
  const pathsOf = (target: object) => [Reflect.getMetadata(PATH_METADATA, target) as string | string[]].flat();
  return pathsOf(controller).flatMap((base) =>
    pathsOf(handler).map((path) => {
      const parts = [base, path].flatMap((part) => part.split('/')).filter(Boolean);
      return `/${parts.join('/')}`;
    }),
  );
}
