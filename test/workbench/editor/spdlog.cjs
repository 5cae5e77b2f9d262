// The editor's logger without its native part: what is needed to show a log in the workbench, as lines in a file.
const { appendFileSync, mkdirSync } = require('node:fs');
const { dirname } = require('node:path');

const LEVELS = ['trace', 'debug', 'info', 'warning', 'error', 'critical', 'off'];

class Logger {
  #file;
  #level = 2;
  #bare = false;

  constructor(_type, _name, file) {
    this.#file = file;
  }

  trace = (message) => this.#write(0, message);
  debug = (message) => this.#write(1, message);
  info = (message) => this.#write(2, message);
  warn = (message) => this.#write(3, message);
  error = (message) => this.#write(4, message);
  critical = (message) => this.#write(5, message);
  getLevel = () => this.#level;
  setLevel = (level) => void (this.#level = level);
  /** Lines without a head: an output channel makes its own. */
  clearFormatters = () => void (this.#bare = true);
  setPattern() {}
  flush() {}
  drop() {}

  #write(level, message) {
    if (level < this.#level) return;
    const time = new Date().toISOString().replace('T', ' ').replace('Z', '');
    appendFileSync(this.#file, this.#bare ? message : `${time} [${LEVELS[level]}] ${message}\n`);
  }
}

async function createLogger(_name, file) {
  mkdirSync(dirname(file), { recursive: true });
  return new Logger(undefined, undefined, file);
}

exports.version = 1;
exports.setLevel = () => {};
exports.setFlushOn = () => {};
exports.Logger = Logger;
exports.createRotatingLogger = createLogger;
exports.createAsyncRotatingLogger = createLogger;
