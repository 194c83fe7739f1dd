/**
 * What each kind of evidence of `chinEvidence` weighs. Written by npm run fit:chin.
 * @tuned on 51 photographs with published marks (Face Research Lab London Set, doi:10.6084/m9.figshare.5047666.v5), 10 photographs of npm packages marked by hand and 132 portraits of drawn sitters.
 */
export const CHIN_WEIGHTS: readonly number[] = [
  0.188, -0.593, 0.259, 0.227, 0.402, -0.644, 0.079, -0.025, -0.239, -0.191, 0.047, -0.064, -0.262, -0.545,
  0.447, 0.093, -0.305, -0.457, -0.036, -0.215, -0.473, -0.042, -0.146, 0.127, 0.696, 0.158, -0.889,
]
