/**
 * What each kind of evidence of `chinEvidence` weighs. Written by npm run fit:chin.
 * @tuned on 51 photographs with published marks (Face Research Lab London Set, doi:10.6084/m9.figshare.5047666.v5), 10 photographs of npm packages marked by hand and 132 portraits of drawn sitters.
 */
export const CHIN_WEIGHTS: readonly number[] = [
  -0.355, -0.557, 0.4, 0.109, -0.231, -0.385, -0.05, -0.195, -0.446, -0.069, -0.151, 0.115, -0.001, -0.477,
  0.25, 0.241, 0.339, -0.486, -0.004, -0.038, -0.169, -0.182, 0.015, -0.027, 0.294, -0.09, 0.398, -0.236,
  0.168, 0.024, 0.115, 0.064, -0.018, -0.066, 0.082, 0.026, 0.266, 0.34, -0.11, -0.212, 0.133, -0.178, 0.225,
  -0.059, 0.25, -0.114, 0.002, -0.253, 0.815, 0.041, -0.878,
]
