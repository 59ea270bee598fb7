import { SetMetadata } from '@nestjs/common';
import type { z } from 'zod';

export const READS = Symbol('what a route reads by itself');

export interface RouteReading {
  /** Form of a body that no pipe reads: one read in a thread, or the parts of a form. */
  body?: z.ZodType;
  /** Headers a route needs, each with what it is for. */
  headers?: Record<string, string>;
}

/** Describes what a route reads from its request by itself, for the interface's description. */
export const Reads = (reading: RouteReading) => SetMetadata(READS, reading);
