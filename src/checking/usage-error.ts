/** Something that its user can put right: a wrong use, a file that can't be read or written. Says in a sentence what to do. */
export class UsageError extends Error {}
