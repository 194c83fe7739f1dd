/** A point of the mesh, px of the picture searched; depth is counted from the middle of the head away from the camera. */
export type MeshPoint = readonly [x: number, y: number, z: number]
