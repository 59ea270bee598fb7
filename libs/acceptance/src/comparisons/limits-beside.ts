import type { Comparison, Limit, MeasuredLimit } from '@breakbook/lab';

/** A limit drawn beside the values of a declared characteristic; no item is held to it by a comparison. */
export interface LimitBeside {
  /** As it is named in the declaration. */
  characteristic: string;
  limit: MeasuredLimit;
}

/** Which of these limits, of the plans under which the compared runs were made, are drawn: each once, where it belongs. */
export function limitsBeside(
  { characteristics }: Pick<Comparison, 'characteristics'>,
  limits: readonly Limit[],
): LimitBeside[] {
  const once = [...new Map(limits.map((one) => [`${one.limit} ${one.revision}`, one])).values()];
  return characteristics.flatMap(({ name, source, tool }) =>
    source.from === 'examination' || tool.kind === 'failure modes'
      ? []
      : once.flatMap((limit) =>
          limit.bound !== 'absent' && limit.characteristic === source.characteristic
            ? { characteristic: name, limit }
            : [],
        ),
  );
}
