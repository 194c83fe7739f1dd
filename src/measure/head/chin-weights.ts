/**
 * What each kind of evidence of `chinEvidence` weighs. Written by npm run fit:chin.
 * @tuned on 51 photographs with published marks (Face Research Lab London Set, doi:10.6084/m9.figshare.5047666.v5), 10 photographs of npm packages marked by hand and 132 portraits of drawn sitters.
 */
export const CHIN_WEIGHTS: readonly number[] = [
  0.191,
  -0.595,
  0.264,
  0.229,
  0.396,
  -0.648,
  0.076,
  -0.022,
  -0.252,
  -0.189,
  0.022,
  -0.07,
  -0.262,
  -0.54,
  0.438,
  0.094,
  -0.3,
  -0.452,
  -0.021,
  -0.218,
  -0.464,
  -0.043,
  -0.14,
  0.117,
  0.697,
  0.16,
  -0.887,
]
