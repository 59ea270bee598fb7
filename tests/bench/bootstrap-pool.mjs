import { fileURLToPath } from 'node:url';
import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads';
import { lowerToleranceBound, seededGenerator } from '@breakbook/statistics';

const CHUNK = 50;

/** One bound of one seeded sample: the same whichever worker finds it. */
function boundOf(seed) {
  const chance = seededGenerator(seed);
  const sample = { exact: Array.from({ length: 8 }, () => chance.weibull({ shape: 12, scale: 1500 })) };
  const aim = { coverage: 0.9, confidence: 0.95, distribution: 'weibull', technique: 'bootstrap' };
  const found = lowerToleranceBound({ sample, ...aim, seed, replicates: 500 });
  if ('notEvaluated' in found) throw new Error(found.notEvaluated.because);
  return found.bound;
}

/**
 * Finds so many bootstrap bounds in a pool of workers, each taking the next chunk of seeds when it is done with one. The
 * digest is their sum in the order of the seeds, so that it does not depend on the number of workers.
 */
export async function bootstrapBounds({ count, workers, onProgress }) {
  const bounds = new Float64Array(count);
  let [next, done] = [0, 0];
  await Promise.all(
    Array.from({ length: workers }, () => {
      const worker = new Worker(fileURLToPath(import.meta.url), { workerData: 'bootstrap' });
      const hand = () => {
        worker.postMessage(next < count ? { from: next, to: Math.min(count, next + CHUNK) } : undefined);
        next += CHUNK;
      };
      return new Promise((resolve, reject) => {
        worker.on('message', ({ from, found }) => {
          bounds.set(found, from);
          done += found.length;
          onProgress(done, count);
          hand();
        });
        worker.on('error', reject);
        worker.on('exit', (code) => (code === 0 ? resolve() : reject(new Error(`a worker ended with ${code}`))));
        hand();
      });
    }),
  );
  return { digest: bounds.reduce((sum, bound) => sum + bound, 0) };
}

if (!isMainThread && workerData === 'bootstrap')
  parentPort.on('message', (chunk) => {
    if (chunk === undefined) return parentPort.close();
    const found = Float64Array.from({ length: chunk.to - chunk.from }, (_, index) => boundOf(chunk.from + index));
    parentPort.postMessage({ from: chunk.from, found });
  });
