import type { Command as Program } from 'commander'

/** Adds the options that all commands share which measure. */
export function withMeasuring(program: Program): Program {
  return program
    .option('--cache <folder>', 'keep measurements in this folder instead of your own cache folder')
    .option('--no-cache', 'measure every portrait again and keep nothing')
    .option('--rehash', 'identify unchanged portraits by content, not by size and time', false)
}
