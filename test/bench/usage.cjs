// Loaded before a program that is measured. At its end it writes to a fourth channel what the process used: CPU time of
// user and system together, s, and the most memory that was resident at once, MB.
const { writeSync } = require('node:fs');

process.on('exit', () => {
  const { userCPUTime, systemCPUTime, maxRSS } = process.resourceUsage();
  writeSync(3, JSON.stringify({ cpu: (userCPUTime + systemCPUTime) / 1e6, peak: maxRSS / 1024 }));
});
