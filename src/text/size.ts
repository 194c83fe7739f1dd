/** Width and height of a picture as all reports and pages write them: "1200 x 1500 px". */
export function sizeText({
  widthPx,
  heightPx,
}: Readonly<Record<'widthPx' | 'heightPx', number | null>>): string {
  return `${widthPx} x ${heightPx} px`
}
