import type { NetworkFile } from './network-file.ts'

/** The networks that are run, as Google's packages carry them (Apache-2.0). */
export const NETWORKS = {
  /** Finds faces as small as a twentieth of the picture. */
  faceFullRange: { file: '@mediapipe/face_detection/face_detection_full_range.tflite' },
  /** Finds faces near the camera. */
  faceShortRange: { file: '@mediapipe/face_detection/face_detection_short_range.tflite' },
  /** Its package keeps several in one file; the one "with attention" needs operations that the runtime lacks. */
  faceMesh: {
    file: '@mediapipe/face_mesh/face_mesh_solution_packed_assets.data',
    part: {
      name: 'face_landmark.tflite',
      script: '@mediapipe/face_mesh/face_mesh_solution_packed_assets_loader.js',
    },
  },
  /** Tells people from what is behind them, for video calls. */
  person: { file: '@mediapipe/selfie_segmentation/selfie_segmentation.tflite' },
} as const satisfies Record<string, NetworkFile>
