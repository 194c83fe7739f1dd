/** The libraries whose versions can change what is measured, as pinned in package.json; a test holds them together. */
export const MEASURING_LIBRARIES = {
  '@litertjs/core': '2.5.3',
  '@mediapipe/face_detection': '0.4.1657300184',
  '@mediapipe/face_mesh': '0.4.1657299874',
  '@mediapipe/selfie_segmentation': '0.1.1675465747',
  saxes: '6.0.0',
  sharp: '0.35.5',
} as const
