/** The software and version that stands in every reading, judgement and document. */
export const SOFTWARE = 'breakbook 0.1.0';

/** A record without the version that made it, for comparing what two versions came to. */
export function withoutSoftware<T extends object>({ software: _, ...rest }: T & { software?: string }): object {
  return rest;
}
