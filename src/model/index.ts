export * from './span.ts';
export * from './quantity.ts';
export * from './machine.ts';
export * from './entry.ts';
export * from './finding.ts';
export * from './evaluation.ts';
export * from './priors.ts';
export { lookup } from './lookup.ts';
export { nearest } from './nearest.ts';
