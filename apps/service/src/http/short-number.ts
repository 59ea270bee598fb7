import { Refusal, shown } from '@breakbook/lab';
import type { PipeTransform } from '@nestjs/common';

/** A pipe that reads a short number from a path; what is none is as little there as a number never given. */
export function shortNumber(of: string): PipeTransform<string, number> {
  return {
    transform(written: string) {
      if (/^[1-9]\d{0,8}$/.test(written)) return Number(written);
      throw new Refusal({ code: 'request.not-found', detail: `There is no ${of} "${shown(written)}" in this lab.` });
    },
  };
}
