import { SOFTWARE } from '@breakbook/lab';
import type { ModulesContainer } from '@nestjs/core';
import { PROBLEM_TYPE, ProblemAnswer } from '../http/problem-details.js';
import { servedHandlers } from '../http/served-handlers.js';
import { SchemaGatherer } from './json-schema.js';
import { operationOf } from './operation.js';

/** A description of the interface, in the form of OpenAPI 3.1. */
export interface OpenApiDocument {
  openapi: string;
  info: Record<string, unknown>;
  paths: Record<string, Record<string, Operation>>;
  components: { schemas: Record<string, unknown>; responses: Record<string, unknown>; securitySchemes: object };
}

export interface Operation {
  parameters?: { name: string; in: string; required: boolean; schema: unknown }[];
  requestBody?: { content: Record<string, { schema: unknown }> };
  responses: Record<string, { content?: Record<string, { schema: unknown }> }>;
}

/**
 * The description of the interface, made from the routes themselves: the schemas that read their bodies and queries,
 * the forms they answer in, and the duties they ask for. There is no second place in which any of it is written down.
 */
export function openApiOf(modules: ModulesContainer): OpenApiDocument {
  const schemas = new SchemaGatherer();
  const problem = schemas.name(ProblemAnswer, 'ProblemAnswer');
  const paths: OpenApiDocument['paths'] = {};
  const served = servedHandlers(modules).sort((one, other) => (one.address < other.address ? -1 : 1));
  for (const one of served) {
    const path = one.address.replaceAll(/:([A-Za-z]+)/g, '{$1}');
    paths[path] = { ...paths[path], [one.method.toLowerCase()]: operationOf(one, schemas) as unknown as Operation };
  }
  const [, version] = SOFTWARE.split(' ');
  return {
    openapi: '3.1.0',
    info: {
      title: 'Breakbook',
      version,
      description: 'The data system of a lab that breaks wheels and rims on purpose.',
      license: { name: 'Apache-2.0', identifier: 'Apache-2.0' },
    },
    paths,
    components: {
      schemas: Object.fromEntries([...schemas.components].sort(([one], [other]) => (one < other ? -1 : 1))),
      responses: {
        Problem: {
          description: 'What was wrong, where, and what to do (RFC 9457).',
          content: { [PROBLEM_TYPE.split(';')[0] ?? '']: { schema: problem } },
        },
      },
      securitySchemes: {
        session: { type: 'apiKey', in: 'cookie', name: 'breakbook', description: 'Of a person, by POST /api/sign-in.' },
        rigToken: { type: 'http', scheme: 'bearer', description: "Of a rig's computer, which sends runs." },
      },
    },
  };
}
