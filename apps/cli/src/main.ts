import { breakbook } from './program.js';

// A reader that stops early (`| head`) is no fault of anybody's.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(process.exitCode ?? 0);
  throw error;
});

process.exitCode = await breakbook(process.argv.slice(2));
