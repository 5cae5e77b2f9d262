/** Runs one piece of work at a time: a call during a run causes one more run afterwards. */
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
