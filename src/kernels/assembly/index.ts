// All kernels as one module. `npm run generate` compiles it into src/kernels/module.ts.
export { convolve } from './convolution'
export { floodFill, growIntoSmear, waysWithin } from './flood'
export { lab } from './lab'
export { common, countOf, erode, everyNth, invert, union, without } from './masks'
export { giveBack, take } from './memory'
export { above, distances, meanOfSquares, slopes } from './planes'
export { powerInRings, transformRows } from './rings'
export { mirrorSums, runsWithin } from './strips'
