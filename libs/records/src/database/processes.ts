import { spawnSync } from 'node:child_process';
import fs from 'node:fs';

/** A process as the system knows it. Number and start together name one process; a number alone is used again. */
export interface ProcessSeen {
  pid: number;
  arguments: string;
  started: string;
}

/** Is there a process of this number, whoever owns it? */
export function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}

/** The process of this number, or undefined when there is none, or only one that has ended and was not yet reaped. */
export function seeProcess(pid: number): ProcessSeen | undefined {
  if (!Number.isInteger(pid) || pid <= 0 || !isAlive(pid)) return undefined;
  return process.platform === 'linux' ? seeInProc(pid) : seeByPs(pid);
}

/** Read from /proc, because small Linux images come without ps. */
function seeInProc(pid: number): ProcessSeen | undefined {
  try {
    const stat = fs.readFileSync(`/proc/${pid}/stat`, 'utf8');
    // Fields 3 and 22 of proc(5), counted after the command, which stands in brackets and may hold blanks.
    const fields = stat.slice(stat.lastIndexOf(')') + 2).split(' ');
    const started = fields[19];
    if (started === undefined || fields[0] === 'Z') return undefined;
    return { pid, arguments: fs.readFileSync(`/proc/${pid}/cmdline`, 'utf8').replaceAll('\0', ' ').trim(), started };
  } catch {
    return undefined;
  }
}

function seeByPs(pid: number): ProcessSeen | undefined {
  const ask = (field: string) => {
    const answer = spawnSync('ps', ['-p', String(pid), '-o', `${field}=`], { encoding: 'utf8' });
    return answer.status === 0 ? answer.stdout.trim() : '';
  };
  const [started, line, state] = [ask('lstart'), ask('args'), ask('stat')];
  if (started === '' || state.startsWith('Z')) return undefined;
  return { pid, arguments: line, started };
}
