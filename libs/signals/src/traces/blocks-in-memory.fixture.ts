import type { TraceBlock } from './trace-blocks.js';
import type { BlockSource } from './trace-window.js';

/** Blocks in memory, with a count of what was read from them. */
export function blocksInMemory(
  blocks: readonly TraceBlock[],
): BlockSource & { read: { samples: number; bytes: number } } {
  const read = { samples: 0, bytes: 0 };
  return {
    spans: blocks,
    read,
    samples: async (places) =>
      places.map((place) => {
        const block = blocks[place] as TraceBlock;
        read.samples += block.samples;
        return block;
      }),
    stretches: async (places, part) =>
      places.map((place) => {
        const bytes = (blocks[place] as TraceBlock)[part];
        read.bytes += bytes.length;
        return bytes;
      }),
  };
}
