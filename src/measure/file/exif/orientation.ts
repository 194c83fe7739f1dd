/** Whether a picture is stored on its side, by its orientation tag; upright without one. @source CIPA DC-008 (Exif), 4.6.4 A: values 5 to 8 exchange rows and columns. */
export function isOnItsSide(orientationTag: number | null): boolean {
  return (orientationTag ?? 1) >= 5
}
