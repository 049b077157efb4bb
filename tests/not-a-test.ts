/**
 * Everything but the test files themselves goes through Node's own imports: a binding that vitest's
 * module runner hands over costs a call at each use, and whole repairs then take 2.5 times as long.
 */
export const NOT_A_TEST =
  /\/(?:src|sim|hal|wiring|tests)\/(?!.*(?:node_modules|\.test\.ts$)).*\.tsx?$/;
