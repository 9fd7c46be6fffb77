import { readdirSync, readFileSync } from 'node:fs';

/** Peak resident memory in bytes of a process and of all that descend from it, by process. Linux only: elsewhere empty. */
export interface PeakMemory {
  /** The process itself. */
  own: number;
  /** The largest of its descendants. */
  largestChild: number;
}

/** Watches a process until `stop`; the kernel keeps the peak of each process, so a coarse clock is enough. */
export function watchMemory(pid: number, everyMs = 40): { stop(): PeakMemory } {
  const peaks = new Map<number, number>();
  const look = () => {
    for (const p of [pid, ...descendants(pid)]) peaks.set(p, Math.max(peaks.get(p) ?? 0, peakOf(p)));
  };
  look();
  const timer = setInterval(look, everyMs);
  return {
    stop() {
      look();
      clearInterval(timer);
      const others = [...peaks].filter(([p]) => p !== pid).map(([, bytes]) => bytes);
      return { own: peaks.get(pid) ?? 0, largestChild: Math.max(0, ...others) };
    },
  };
}

/** Processor time in seconds of this process and of its children that have ended. */
export function processorTime(): number {
  const own = process.cpuUsage();
  return (own.user + own.system) / 1e6 + endedChildren();
}

/** Fields 16 and 17 of /proc/self/stat (proc(5)), in clock ticks of 10 ms. */
function endedChildren(): number {
  try {
    const fields = readFileSync('/proc/self/stat', 'utf8').split(') ')[1].split(' ');
    return (Number(fields[13]) + Number(fields[14])) / 100;
  } catch {
    return 0;
  }
}

function peakOf(pid: number): number {
  try {
    const line = /VmHWM:\s+(\d+) kB/.exec(readFileSync(`/proc/${pid}/status`, 'utf8'));
    return line ? Number(line[1]) * 1024 : 0;
  } catch {
    return 0;
  }
}

function descendants(pid: number): number[] {
  try {
    return readdirSync(`/proc/${pid}/task`).flatMap((tid) => {
      const children = readFileSync(`/proc/${pid}/task/${tid}/children`, 'utf8').split(' ').filter(Boolean).map(Number); // prettier-ignore
      return children.flatMap((c) => [c, ...descendants(c)]);
    });
  } catch {
    return [];
  }
}
