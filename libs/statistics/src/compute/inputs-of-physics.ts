import { z } from 'zod';
import { STANDARD_GRAVITY } from '../physics/standard-gravity.js';

/** No quantity of a lab comes near it, and products of several within it are still numbers. */
const LARGEST = 1e30;

/** Inputs that several methods of physics share. */
export const Reading = z.number().min(-LARGEST).max(LARGEST);
export const Amount = z
  .number()
  .min(1 / LARGEST)
  .max(LARGEST);

export const Gravity = z.number().min(0).max(20).optional().describe(`m/s²; ${STANDARD_GRAVITY} if left out`);

export const Times = z.array(Reading).min(1).max(2_000_000).describe('s, increasing');
