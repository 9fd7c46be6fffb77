/**
 * tslab keeps one timer for the compiler and refuses a second. But the compiler asks for two: to build the program anew,
 * and to look again for modules once a file came or went in a folder that it watches (a package is installed beside the
 * notebook). Then this cell and every later one would fail. Here any number of its timers wait behind that one, and go
 * off together, in their order, when tslab builds for the next cell.
 * @param host of the compiler's watching, whose timers are replaced
 * @param sys what tslab gave to make that host
 */
export function queueRebuilds(host, sys) {
  const waiting = new Map();
  let timer;
  const stop = () => {
    if (timer !== undefined) sys.clearTimeout(timer);
    timer = undefined;
  };
  const goOff = () => {
    try {
      while (waiting.size > 0) {
        const [id, callback] = waiting.entries().next().value;
        waiting.delete(id);
        callback();
      }
    } finally {
      // Also where one has failed: tslab would hold on to the timer, and refuse the next.
      stop();
    }
  };
  host.setTimeout = (callback, _ms, ...values) => {
    const id = {};
    waiting.set(id, () => callback(...values));
    timer ??= sys.setTimeout(goOff);
    return id;
  };
  host.clearTimeout = (id) => {
    waiting.delete(id);
    if (waiting.size === 0) stop();
  };
  return host;
}
