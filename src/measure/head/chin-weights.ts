/**
 * What each kind of evidence of `chinEvidence` weighs. Written by npm run fit:chin.
 * @tuned on 51 photographs with published marks (Face Research Lab London Set, doi:10.6084/m9.figshare.5047666.v5), 10 photographs of npm packages marked by hand and 132 portraits of drawn sitters.
 */
export const CHIN_WEIGHTS: readonly number[] = [
  -0.348, -0.587, 0.605, 0.214, -0.006, -0.121, 0.835, -0.115, -0.111, -0.715, -0.222, -0.102, 0.115, -0.208,
  -0.071, -0.157, 0.33, 0.154, 0.326, -0.088, -0.391, -0.066, -0.005, -0.133, -0.144, 0.036, 0.103, 0.205,
  0.553, 0.051, 0.552, -0.477, 0.309, 0.117, -0.287, -0.175, 0.042, -0.288, 0.178, -0.079, 0.126, -0.223,
  0.479, 0.502, -0.001, -0.47, -0.036, -0.286, -0.37, 0.219, -0.211, 0.482, -0.391, 0.074, -0.243, -0.036,
  0.706, 0.003, -1.202,
]
