// The service as a process of its own, to be killed: compiled code on the database named in the environment.
import { loadArithmetic, startService } from '@breakbook/service';

const { url } = await startService({
  database: JSON.parse(process.env.FAULTS_DATABASE ?? '{}'),
  keys: { folder: process.env.FAULTS_KEYS },
  host: '127.0.0.1',
  port: Number(process.env.FAULTS_PORT),
  limits: { perMinute: 1_000_000, signInsPerMinute: 1_000_000 },
});
console.log(`ready ${url}`);
await loadArithmetic();
