import sharp from 'sharp'

// Each file is decoded once, so a cache only holds memory; several files are decoded at a time, so threads within one
// only get in each other's way.
sharp.cache(false)
sharp.concurrency(1)

export { sharp as decoder }
