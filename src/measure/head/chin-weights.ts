/**
 * What each kind of evidence of `chinEvidence` weighs. Written by npm run fit:chin.
 * @tuned on 51 photographs with published marks (Face Research Lab London Set, doi:10.6084/m9.figshare.5047666.v5), 10 photographs of npm packages marked by hand and 132 portraits of drawn sitters.
 */
export const CHIN_WEIGHTS: readonly number[] = [
  -0.38, -0.572, 0.394, 0.129, -0.209, -0.396, -0.122, -0.223, -0.473, -0.043, -0.132, 0.095, -0.035, -0.413,
  0.257, 0.192, 0.344, -0.468, -0.031, -0.059, -0.101, -0.075, 0.013, -0.004, 0.292, -0.053, 0.265, -0.129,
  0.221, -0.03, 0.084, 0.019, -0.081, -0.036, -0.078, 0.127, 0.227, 0.301, -0.086, -0.127, -0.042, -0.187,
  0.251, -0.082, 0.42, -0.202, 0.029, -0.194, 0.813, 0.062, -0.961,
]
