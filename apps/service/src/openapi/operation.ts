import { HTTP_CODE_METADATA } from '@nestjs/common/constants.js';
import { FASTIFY_ROUTE_CONFIG_METADATA } from '@nestjs/platform-fastify/constants.js';
import type { FastifyContextConfig } from 'fastify';
import type { z } from 'zod';
import { versionSeen } from '../http/if-match.decorator.js';
import type { ReadingPipe } from '../http/parsed-by.js';
import { answerTypesOf, argumentsOf, type RouteArgument } from '../http/route-metadata.js';
import type { ServedHandler } from '../http/served-handlers.js';
import { admissionOf } from '../sign-in/route-admissions.js';
import { ANSWERS, type RouteAnswer } from './answers.decorator.js';
import type { JsonSchema, SchemaGatherer } from './json-schema.js';
import { READS, type RouteReading } from './reads.decorator.js';

const JSON_TYPE = 'application/json';
const USUAL_LARGEST = 256 * 1024;

/** One method of one address, as OpenAPI 3.1 describes it. */
export function operationOf(served: ServedHandler, schemas: SchemaGatherer): Record<string, unknown> {
  const { controller, name, handler, address } = served;
  const said = Reflect.getMetadata(ANSWERS, handler) as RouteAnswer | undefined;
  if (!said) throw new Error(`${served.method} ${address} does not say what it answers. Give it @Answers(...).`);
  const args = argumentsOf(controller, name);
  const reading = (Reflect.getMetadata(READS, handler) ?? {}) as RouteReading;
  const noun = controller.name.replace(/Controller$/, '');
  return {
    operationId: `${noun.charAt(0).toLowerCase()}${noun.slice(1)}.${name}`,
    tags: [address.split('/')[2] ?? 'service'],
    summary: said.summary,
    ...whoMay(handler),
    ...parametersOf(address, args, reading, schemas),
    ...bodyOf(handler, args, reading, schemas),
    responses: {
      [statusOf(served)]: successOf(handler, said, schemas),
      default: { $ref: '#/components/responses/Problem' },
    },
  };
}

function whoMay(handler: object): Record<string, unknown> {
  const { duty = [], again } = admissionOf(handler);
  const session = [{ session: [] }];
  return {
    security:
      duty === 'anybody'
        ? []
        : duty !== 'signed in' && duty.includes('send')
          ? [...session, { rigToken: [] }]
          : session,
    'x-duty': duty,
    ...(again ? { 'x-passphrase-again': true } : {}),
  };
}

function parametersOf(
  address: string,
  args: RouteArgument[],
  { headers = {} }: RouteReading,
  schemas: SchemaGatherer,
): Record<string, unknown> {
  const path = [...address.matchAll(/:([A-Za-z]+)/g)].map(([, name = '']) => ({
    name,
    in: 'path',
    required: true,
    schema: { type: 'string' },
  }));
  const query = args.filter(({ from }) => from === 'query').flatMap((one) => queryOf(address, one, schemas));
  const version = args.some(({ factory }) => factory === versionSeen)
    ? [header('if-match', 'The ETag of the version this change follows.')]
    : [];
  const others = Object.entries(headers).map(([name, purpose]) => header(name, purpose));
  const parameters = [...path, ...query, ...version, ...others];
  return parameters.length > 0 ? { parameters } : {};
}

function header(name: string, description: string): Record<string, unknown> {
  return { name, in: 'header', required: true, description, schema: { type: 'string' } };
}

function queryOf(address: string, { pipes }: RouteArgument, schemas: SchemaGatherer): Record<string, unknown>[] {
  const read = readBy(pipes);
  if (!read) throw new Error(`${address} reads a query without a schema. Read it by queriedBy(...).`);
  const { properties = {}, required = [] } = schemas.of(read, 'input') as {
    properties?: Record<string, JsonSchema>;
    required?: string[];
  };
  return Object.entries(properties).map(([name, schema]) => ({
    name,
    in: 'query',
    required: required.includes(name),
    schema,
  }));
}

function bodyOf(
  handler: object,
  args: RouteArgument[],
  reading: RouteReading,
  schemas: SchemaGatherer,
): Record<string, unknown> {
  const config = (Reflect.getMetadata(FASTIFY_ROUTE_CONFIG_METADATA, handler) ?? {}) as FastifyContextConfig;
  const piped = args.filter(({ from }) => from === 'body').map(({ pipes }) => readBy(pipes))[0];
  const read = piped ?? reading.body;
  const types = config.takes ?? (read ? [JSON_TYPE] : []);
  if (types.length === 0) return {};
  const schema = read ? schemas.of(read, 'input') : { type: 'string', format: 'binary' };
  const largest = config.largestBody ?? USUAL_LARGEST;
  return {
    requestBody: {
      required: true,
      description: `At most ${largest} bytes.`,
      content: Object.fromEntries(types.map((type) => [type, { schema }])),
    },
  };
}

function readBy(pipes: readonly object[]): z.ZodType | undefined {
  return pipes.find((pipe): pipe is ReadingPipe<z.ZodType> => 'reads' in pipe)?.reads;
}

function successOf(handler: object, { answer }: RouteAnswer, schemas: SchemaGatherer): Record<string, unknown> {
  const types = answerTypesOf(handler);
  if (answer)
    return { description: 'Done.', content: { [types[0] ?? JSON_TYPE]: { schema: schemas.of(answer, 'output') } } };
  if (types.includes(JSON_TYPE)) return { description: 'Done; there is nothing to tell.' };
  const bytes = { schema: { type: 'string', format: 'binary' } };
  return { description: 'Done.', content: Object.fromEntries(types.map((type) => [type, bytes])) };
}

function statusOf({ handler, method }: ServedHandler): number {
  return (Reflect.getMetadata(HTTP_CODE_METADATA, handler) as number | undefined) ?? (method === 'POST' ? 201 : 200);
}
