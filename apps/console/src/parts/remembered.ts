/** What a reader chose on this device. A browser that keeps nothing simply asks again next time. */
export function remembered<T extends string>(name: string, allowed: readonly T[], otherwise: T): T {
  try {
    const kept = localStorage.getItem(`breakbook ${name}`);
    return allowed.find((one) => one === kept) ?? otherwise;
  } catch {
    return otherwise;
  }
}

export function remember(name: string, value: string): void {
  try {
    localStorage.setItem(`breakbook ${name}`, value);
  } catch {
    // Private windows may refuse; the choice then holds until the page is closed.
  }
}

/** Whatever text was remembered under a name. */
export function rememberedText(name: string): string | undefined {
  try {
    return localStorage.getItem(`breakbook ${name}`) ?? undefined;
  } catch {
    return undefined;
  }
}

export function forget(name: string): void {
  try {
    localStorage.removeItem(`breakbook ${name}`);
  } catch {
    // What could not be remembered is forgotten already.
  }
}
