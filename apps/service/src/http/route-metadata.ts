import type { PipeTransform, Type } from '@nestjs/common';
import { HEADERS_METADATA, ROUTE_ARGS_METADATA, SSE_METADATA } from '@nestjs/common/constants.js';
import { RouteParamtypes } from '@nestjs/common/enums/route-paramtypes.enum.js';
import { ANSWERS_IN } from './answers-in.decorator.js';

/** One argument of a route, as its decorator says. */
export interface RouteArgument {
  from: 'body' | 'query' | 'path' | 'elsewhere';
  /** Name of the path or query parameter, where the argument is one of them. */
  name?: string;
  pipes: readonly PipeTransform[];
  /** Of a decorator of our own. */
  factory?: (...given: never[]) => unknown;
}

interface StoredArgument {
  data?: unknown;
  pipes: readonly PipeTransform[];
  factory?: RouteArgument['factory'];
}

const SOURCES = new Map<number, RouteArgument['from']>([
  [RouteParamtypes.BODY, 'body'],
  [RouteParamtypes.QUERY, 'query'],
  [RouteParamtypes.PARAM, 'path'],
]);

/** What a route asks for. The framework's decorators have noted it, and it is written down nowhere else. */
export function argumentsOf(controller: Type, method: string): RouteArgument[] {
  const stored = (Reflect.getMetadata(ROUTE_ARGS_METADATA, controller, method) ?? {}) as Record<string, StoredArgument>;
  return Object.entries(stored).map(([key, { data, pipes, factory }]) => ({
    from: SOURCES.get(Number(key.split(':')[0])) ?? 'elsewhere',
    pipes,
    ...(typeof data === 'string' ? { name: data } : {}),
    ...(factory ? { factory } : {}),
  }));
}

/** The media types a route's answer may have. */
export function answerTypesOf(handler: object): string[] {
  const said = Reflect.getMetadata(ANSWERS_IN, handler) as string[] | undefined;
  if (said) return said;
  if (Reflect.getMetadata(SSE_METADATA, handler)) return ['text/event-stream'];
  const headers = (Reflect.getMetadata(HEADERS_METADATA, handler) ?? []) as { name: string; value: unknown }[];
  const named = headers.find(({ name }) => name.toLowerCase() === 'content-type')?.value;
  return [typeof named === 'string' ? (named.split(';')[0] ?? named) : 'application/json'];
}
