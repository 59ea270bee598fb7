import type { UncertaintyBudget } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { inventedContent } from '../../fixtures/invented-lot.js';
import type { Table } from '../../parts/blocks.js';
import { uncertaintySection } from './conduct.js';

const content = inventedContent({ specimens: 3 });

/** The coverage factor as it is printed, where the method's budget and the factors of the runs are these. */
function printed(budget: Omit<UncertaintyBudget, 'components'>, factors: number[]): unknown {
  const name = content.bundle.methods[0]?.characteristics[0]?.characteristic;
  const components = [{ from: 'standard' as const, name: 'drift', u: 1, unit: 'kPa' }];
  const given = {
    ...content,
    bundle: {
      ...content.bundle,
      methods: content.bundle.methods.map((method) => ({
        ...method,
        characteristics: method.characteristics.map((one) => ({ ...one, uncertainty: { ...budget, components } })),
      })) as typeof content.bundle.methods,
    },
    readings: content.readings.map((reading, run) => ({
      ...reading,
      characteristics: reading.characteristics.map((one) => ({
        ...one,
        uncertainty: { expanded: 10, k: factors[run % factors.length] as number, components: [] },
      })),
    })),
  };
  const table = uncertaintySection(given).blocks.find((block): block is Table => block.block === 'table');
  const title = content.bundle.methods[0]?.characteristics.find((one) => one.characteristic === name)?.title;
  const row = table?.rows.find(([first]) => typeof first === 'object' && first.text === title);
  return row?.[2];
}

describe('the coverage factor of a single measurement', () => {
  it('is the one that the method fixes', () => {
    expect(printed({ k: 2 }, [2])).toBe('k = 2');
  });

  it('stands beside the probability where the method asks for that', () => {
    expect(printed({ coverage: 0.95 }, [1.7])).toBe('k = 1.7 for 95 % by the distributions of the parts');
    expect(printed({ coverage: 0.55 }, [0.8])).toBe('k = 0.8 for 55 % by the distributions of the parts');
    expect(printed({ coverage: 0.95 }, [1.7, 1.82, 1.66])).toBe(
      'k = 1.66 to 1.82 for 95 % by the distributions of the parts',
    );
  });
});
