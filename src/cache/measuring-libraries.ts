/** The libraries whose versions can change what is measured, as pinned in package.json; a test holds them together. */
export const MEASURING_LIBRARIES = {
  '@litertjs/core': '2.5.3',
  '@mediapipe/selfie_segmentation': '0.1.1675465747',
  '@tensorflow/tfjs-backend-wasm': '4.22.0',
  '@tensorflow/tfjs-converter': '4.22.0',
  '@tensorflow/tfjs-core': '4.22.0',
  '@vladmandic/human': '3.3.6',
  saxes: '6.0.0',
  sharp: '0.35.5',
} as const
