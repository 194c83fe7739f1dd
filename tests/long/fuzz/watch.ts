import type { ChildProcess } from 'node:child_process'
import { readFileSync } from 'node:fs'

const LOOK_MS = 500
/** A process that says nothing for so long waits for something that never comes. */
const SILENT_MS = 1_800_000
// Clock ticks a second of /proc/PID/stat: USER_HZ, 100 on every Linux that Node.js runs on (proc_pid_stat(5)).
const TICKS = 100

/**
 * Kills a process that hangs. What counts is the time of the processor, since that of the clock tells how busy the machine
 * is; where the system does not say it (it has no /proc), only silence counts.
 * @param hangs is given what the process did
 */
export function watchOver(child: ChildProcess, hangs: (how: string) => void) {
  let allowed = { seconds: Infinity, from: 0, since: Date.now() }
  const timer = setInterval(() => {
    const { seconds, from, since } = allowed
    const isBusy = processorSeconds(child.pid) - from > seconds
    if (!isBusy && Date.now() - since < SILENT_MS) return
    hangs(isBusy ? `took longer than ${seconds} s of the processor` : 'said nothing for half an hour')
    child.kill('SIGKILL')
  }, LOOK_MS)
  return {
    /** Begins anew: so many seconds of the processor from now on. */
    allow(seconds: number) {
      allowed = { seconds, from: processorSeconds(child.pid), since: Date.now() }
    },
    end: () => clearInterval(timer),
  }
}

/** Of a process and all its threads so far; 0 when it is gone or nothing is known. */
function processorSeconds(pid: number | undefined): number {
  try {
    // The name, in brackets, may hold spaces; utime and stime are the fields 14 and 15.
    const fields = readFileSync(`/proc/${pid}/stat`, 'latin1')
      .replace(/^.*\) /s, '')
      .split(' ')
    return (Number(fields[11]) + Number(fields[12])) / TICKS
  } catch {
    return 0
  }
}
