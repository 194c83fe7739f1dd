import { npmPackage, type PinnedPackage } from './npm-package.ts'

/** Packages (MIT) whose pictures tests read and measure: fetched when a test runs, never committed. */
const PACKAGES: Readonly<Record<string, Omit<PinnedPackage, 'name'>>> = {
  'startbootstrap-agency': {
    version: '7.0.12',
    integrity:
      'sha512-VpdOVgqYq+Yomt72/gZueBuB99wWyqL1rvqaGaqRwHtDMJlXSf9eGfisyQXPx7//z3dnlGHIMzIk2I8CCmtXOQ==',
  },
  'argon-design-system-free': {
    version: '1.2.0',
    integrity:
      'sha512-aMNzLhI9PYfXwCVGAf9DHgbQDO8ouK+OZbFsiinvB1tgeuoymP+WykVOzwMspYeMTAr+dLksm+5BwzwADQs1BA==',
  },
  'soft-ui-design-system': {
    version: '1.0.4',
    integrity:
      'sha512-tX86rDIsaW2CscpCEolbqvYMpjZOSHGoTZLFRAV+8HJpYEdbNjeS8BsAUhhs8qDlRnbmCykolVgQqKnKlcfLEQ==',
  },
  'material-dashboard': {
    version: '3.1.0',
    integrity:
      'sha512-/dkEhja3jybC2ky+cXvOyCu+BgjdHmxN+6Vj04p5+LtDDQZbZ8PW8qV5YwDW/KwHSs8mpYDG20p964kdc0PMQA==',
  },
  // A telephone's picture with coordinates, a thumbnail and stale sizes.
  'exif-parser': {
    version: '0.1.12',
    integrity:
      'sha512-c2bQfLNbMzLPmzQuOr8fy0csy84WmwnER81W88DzTp9CYNPJ6yzOj2EZAh9pywYpqHnshVLHQJ8WzldAyfY+Iw==',
  },
  // Test pictures of other readers: cameras and editors of many years.
  exif: {
    version: '0.6.0',
    integrity:
      'sha512-gEwM4uanNMfLnDNKclZ7jPEA99E3rpy4ntoS6QW8u6murZjl1o8qRaPdMoC46Syg3d9/QaET0bYKhWlTwJCPgg==',
  },
  'node-iptc': {
    version: '1.0.5',
    integrity:
      'sha512-+e9aVETp/X8iFX2qBw2GnABkq/jGs7dJdxGURZysOdn4ZdOdArPW2a3xQpSq6GX2CcgEzUklDfaC/cg4sLv35g==',
  },
  'xmp-reader': {
    version: '0.0.3',
    integrity:
      'sha512-6mUUwjfr8/9VjswaUItgMeROQDV4dtUlZrtD85exE2ETdK0jKSmjNOP2EjFfomSoehAuL9LhVNRbKTqWW8TvLg==',
  },
  'jpeg-exif': {
    version: '1.1.4',
    integrity:
      'sha512-a+bKEcCjtuW5WTdgeXFzswSrdqi0jk4XlEtZlx5A94wCoBpFjfFTbo/Tra5SpNCl/YFZPvcV1dJc+TAYeg6ROQ==',
  },
  'material-kit': {
    version: '2.0.4',
    integrity:
      'sha512-YtcRcqV0s7iByigCfcoHqtrUgXaicyYyZYikn6cdUuKdPdYvQplOUvUgvzmNTvDPcZXzLt8MUk9YfpWWOGISOQ==',
  },
  // Portraits before rooms and streets; of the two large packages only the folder with pictures.
  'paper-kit-2': {
    version: '2.1.0',
    integrity:
      'sha512-IRlEBivZes8PhGWWYQDSn5Z20xIXC+20q5JLkKLG9N40ZmHsKgDBJ8dq7P7SEw+dBAVKQ6GrRvXnDYJiT5YBNQ==',
  },
  'startbootstrap-landing-page': {
    version: '6.0.6',
    integrity:
      'sha512-fS0Z6kV1HDWba4S1YLP+oKkqLkOUFx9FGsCx7W/svXqxilqzjw6gz6LLY22ZNr0UH0tAI5y6S5e2iad0Ux2DZA==',
  },
  'startbootstrap-resume': {
    version: '7.0.6',
    integrity:
      'sha512-nqY3xc5UBischcbWuIZBvm5TAKqjJALDfEckaiR67bBYwvpzicB2FFhw0HNrUVsahM57sfvQSOiVzR2/7ffgLA==',
  },
  '@adminkit/core': {
    version: '3.5.0',
    integrity:
      'sha512-yPhIGjyHD3tCORmL+UUEDSlHtIK5WtHPY93A7VvkUcWwLAqEKRYd1IMZ1o00S6jI1zRHmXDjpUIe+BGKJDketA==',
  },
  'shards-ui': {
    version: '3.0.0',
    integrity:
      'sha512-NYSzq5PrYLoCTGD8gGvJxZal0bY3L8qGr1nNEawjqGT60SAJYZaQDjiiG3j3rjpsB2pNd1vKQUjdgNT7UnO6Kg==',
  },
  'black-dashboard': {
    version: '1.0.0',
    integrity:
      'sha512-D2PoijLSVhOwv+9ujLxPwW6jtzhzdAOH8MaYs7wFQ2O+va0zyY+RpO+IEhKNCDGyHdGcXxDc7+IohtTapTxrAQ==',
  },
  'tabler-ui': {
    version: '0.0.34',
    integrity:
      'sha512-1stQxEx9rfCDaBKh6cNF8boP4FvLERrLdeWj7FXJYgxhxeglaJaymN1bG2davVWysDVhaL20PoZT4RNBYVGCHA==',
    only: 'dist/demo/faces',
  },
  '@vladmandic/face-api': {
    version: '1.7.15',
    integrity:
      'sha512-WDMmK3CfNLo8jylWqMoQgf4nIst3M0fzx1dnac96wv/dvMTN4DxC/Pq1DGtduDk1lktCamQ3MIDXFnvrdHTXDw==',
    only: 'demo',
  },
}

/** The folder of the files of one of these packages; see {@link npmPackage}. */
export async function packageFolder(name: string): Promise<string> {
  const pinned = PACKAGES[name]
  if (!pinned) throw new Error(`No version of ${name} is pinned in tests/outside/portraits.ts.`)
  return npmPackage({ name, ...pinned })
}
