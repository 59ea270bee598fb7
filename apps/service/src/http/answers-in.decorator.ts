import { SetMetadata } from '@nestjs/common';

export const ANSWERS_IN = Symbol('media types of an answer');

/** The media types a route answers in, where that is not JSON, and not one that a header of the route names. */
export const AnswersIn = (...types: string[]) => SetMetadata(ANSWERS_IN, types);
