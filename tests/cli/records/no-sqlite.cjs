/** Preloaded by a test: as if the SQLite module were not installed, or compiled for another Node. */
const Module = require('node:module');

const load = Module._load;
Module._load = (name, ...rest) => {
  if (name !== 'better-sqlite3' && name !== 'node:sqlite') return load(name, ...rest);
  const words = 'NODE_MODULE_VERSION 115. This version of Node.js requires 137.';
  throw Object.assign(new Error(words), { code: process.env.MENISCUS_SQLITE_ERROR });
};
