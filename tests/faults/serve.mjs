// The service as a process of its own, to be killed: compiled code on the database named in the environment.
import { loadArithmetic, startService } from '@breakbook/service';

const { url } = await startService({
  database: JSON.parse(process.env.FAULTS_DATABASE ?? '{}'),
  keys: { folder: process.env.FAULTS_KEYS },
  host: '127.0.0.1',
  port: Number(process.env.FAULTS_PORT),
  limits: { perMinute: 1_000_000, signInsPerMinute: 1_000_000 },
  // One sender stands for all: nobody sends a hundred runs and has a report made every few seconds for hours.
  quotas: { bytes: 2 ** 50, exports: 1_000_000, runs: 1_000_000 },
});
console.log(`ready ${url}`);
await loadArithmetic();
