/** One piece of work at a time: whoever asks while it is at work is served once more afterwards, by what holds then. */
export function latest(work: () => Promise<void>): () => void {
  let [working, outdated] = [false, false];
  return () => {
    outdated = true;
    if (!working) void run();
  };

  async function run(): Promise<void> {
    working = true;
    try {
      while (outdated) {
        outdated = false;
        await work();
      }
    } finally {
      working = false;
    }
  }
}
