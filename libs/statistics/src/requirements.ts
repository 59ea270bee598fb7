/**
 * Checks at the head of a function that is called with typed values: a wrong call throws, and says
 * which function needs what. Each takes the numbers by name, so that the message can name them.
 */
type Named = Record<string, number>;

export function requireFraction(caller: string, fractions: Named): void {
  for (const [name, value] of Object.entries(fractions))
    if (!(value > 0 && value < 1))
      throw new RangeError(
        `${caller}: ${name} must lie between 0 and 1; got ${value}. Shares are fractions, not percent.`,
      );
}

export function requireCount(caller: string, counts: Named, atLeast = 0): void {
  for (const [name, value] of Object.entries(counts))
    if (!Number.isSafeInteger(value) || value < atLeast)
      throw new RangeError(`${caller}: ${name} must be a whole number of at least ${atLeast}; got ${value}.`);
}

export function requirePositive(caller: string, numbers: Named): void {
  for (const [name, value] of Object.entries(numbers))
    if (!(value > 0 && Number.isFinite(value)))
      throw new RangeError(`${caller}: ${name} must be a finite number above 0; got ${value}.`);
}

export function requireFinite(caller: string, numbers: Named): void {
  for (const [name, value] of Object.entries(numbers))
    if (!Number.isFinite(value)) throw new RangeError(`${caller}: ${name} must be a finite number; got ${value}.`);
}

export function requireValues(caller: string, name: string, values: readonly number[]): void {
  values.forEach((value, index) => {
    if (!Number.isFinite(value))
      throw new RangeError(`${caller}: ${name}[${index}] must be a finite number; got ${value}.`);
  });
}
