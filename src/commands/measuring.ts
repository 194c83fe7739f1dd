import type { Command as Program } from 'commander'

/** Adds the options that all commands share which measure. */
export function withMeasuring(program: Program): Program {
  return program
    .option('--cache <folder>', "keep measurements in this folder instead of the user's own")
    .option('--no-cache', 'measure every portrait anew and keep nothing')
    .option('--rehash', 'know unchanged portraits by their content, not by size and time', false)
}
