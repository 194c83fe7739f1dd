import { type ExifDirectory, MAKER_NOTE } from '../../file/exif/exif.ts'
import type { PrivateItem } from '../../schema/metadata-facts.ts'

/** Where a private item may stand in each kind of metadata. */
export interface PrivatePlaces {
  readonly exif?: readonly ExifPlace[]
  /** Datasets of record 2. */
  readonly iim?: readonly (readonly [dataset: number, name: string])[]
  /** Properties and fields; `crs:*` stands for all of a namespace. */
  readonly xmp?: readonly string[]
  /** Keywords of PNG text. */
  readonly png?: readonly string[]
}
type ExifPlace = readonly [directory: ExifDirectory, tag: number, name: string, skip?: number]

/**
 * Where each private item may be kept.
 * @source Exif tags, CIPA DC-008, 4.6.4 to 4.6.6 and Annex "GPS"; HostComputer, TIFF 6.0; CameraSerialNumber and DNGPrivateData, Adobe
 * DNG Specification; ImageHistory, TIFF/EP; XP tags and 0x0000B, ExifTool's tables. Datasets, IIM 4.2, chapter 6. Properties, IPTC
 * Photo Metadata Standard, CIPA DC-010, MWG Guidelines 2.0 (regions), ISO 16684-2.
 */
export const PRIVATE_PLACES: Readonly<Record<Exclude<PrivateItem, 'preview'>, PrivatePlaces>> = {
  coordinates: {
    exif: [
      ['gps', 0x0002, 'GPSLatitude'],
      ['gps', 0x0004, 'GPSLongitude'],
      ['gps', 0x0006, 'GPSAltitude'],
      ['gps', 0x0014, 'GPSDestLatitude'],
      ['gps', 0x0016, 'GPSDestLongitude'],
      ['gps', 0x001c, 'GPSAreaInformation', 8],
    ],
    xmp: [
      'exif:GPSLatitude',
      'exif:GPSLongitude',
      'exif:GPSAltitude',
      'exif:GPSDestLatitude',
      'exif:GPSDestLongitude',
      'exif:GPSAreaInformation',
      'drone-dji:GpsLatitude',
      'drone-dji:GpsLongitude',
      'drone-dji:GpsLongtitude',
      'geo:lat',
      'geo:long',
    ],
  },
  'place-names': {
    iim: [
      [26, 'Content Location Code'],
      [27, 'Content Location Name'],
      [90, 'City'],
      [92, 'Sublocation'],
      [95, 'Province/State'],
      [100, 'Country Code'],
      [101, 'Country Name'],
    ],
    xmp: [
      'photoshop:City',
      'photoshop:State',
      'photoshop:Country',
      'Iptc4xmpCore:Location',
      'Iptc4xmpCore:CountryCode',
      'Iptc4xmpExt:LocationCreated',
      'Iptc4xmpExt:LocationShown',
      'dc:coverage',
    ],
  },
  'camera-serial': {
    exif: [
      ['exif', 0xa431, 'BodySerialNumber'],
      ['main', 0xc62f, 'CameraSerialNumber'],
    ],
    xmp: ['exifEX:BodySerialNumber', 'aux:SerialNumber'],
  },
  'lens-serial': {
    exif: [['exif', 0xa435, 'LensSerialNumber']],
    xmp: ['exifEX:LensSerialNumber', 'aux:LensSerialNumber'],
  },
  owner: {
    exif: [['exif', 0xa430, 'CameraOwnerName']],
    xmp: ['exifEX:CameraOwnerName', 'aux:OwnerName', 'xmpRights:Owner'],
  },
  'host-computer': { exif: [['main', 0x013c, 'HostComputer']] },
  'camera-model': {
    exif: [
      ['main', 0x010f, 'Make'],
      ['main', 0x0110, 'Model'],
      ['main', 0xc614, 'UniqueCameraModel'],
      ['exif', 0xa433, 'LensMake'],
      ['exif', 0xa434, 'LensModel'],
    ],
    xmp: ['tiff:Make', 'tiff:Model', 'exifEX:LensMake', 'exifEX:LensModel', 'aux:Lens'],
  },
  'capture-time': {
    exif: [
      ['exif', 0x9003, 'DateTimeOriginal'],
      ['exif', 0x9004, 'DateTimeDigitized'],
      ['gps', 0x0007, 'GPSTimeStamp'],
      ['gps', 0x001d, 'GPSDateStamp'],
    ],
    iim: [
      [55, 'Date Created'],
      [60, 'Time Created'],
      [62, 'Digital Creation Date'],
      [63, 'Digital Creation Time'],
    ],
    xmp: [
      'photoshop:DateCreated',
      'exif:DateTimeOriginal',
      'exif:DateTimeDigitized',
      'xmp:CreateDate',
      'exif:GPSTimeStamp',
    ],
    png: ['Creation Time'],
  },
  software: {
    exif: [
      ['main', 0x0131, 'Software'],
      ['main', 0x000b, 'ProcessingSoftware'],
    ],
    iim: [
      [65, 'Originating Program'],
      [70, 'Program Version'],
    ],
    xmp: ['tiff:Software', 'xmp:CreatorTool'],
    png: ['Software'],
  },
  'original-name': { xmp: ['crs:RawFileName', 'xmpMM:PreservedFileName', 'stRef:filePath'] },
  'edit-history': {
    exif: [['exif', 0x9213, 'ImageHistory']],
    xmp: ['xmpMM:History', 'photoshop:History', 'xmpMM:Ingredients', 'xmpMM:Pantry', 'xmpMM:Manifest'],
  },
  'develop-settings': { xmp: ['crs:*'] },
  'person-shown': { xmp: ['Iptc4xmpExt:PersonInImage', 'Iptc4xmpExt:PersonInImageWDetails'] },
  'face-regions': { xmp: ['mwg-rs:Regions', 'MP:RegionInfo', 'Iptc4xmpExt:ImageRegion'] },
  contact: { iim: [[118, 'Contact']], xmp: ['Iptc4xmpCore:CreatorContactInfo'] },
  instructions: { iim: [[40, 'Special Instructions']], xmp: ['photoshop:Instructions'] },
  comments: {
    // Eight bytes name the character set.
    exif: [
      ['exif', 0x9286, 'UserComment', 8],
      ['main', 0x9c9c, 'XPComment'],
    ],
    xmp: ['exif:UserComment'],
    png: ['Comment'],
  },
  keywords: {
    iim: [[25, 'Keywords']],
    exif: [['main', 0x9c9e, 'XPKeywords']],
    xmp: ['dc:subject', 'lr:hierarchicalSubject'],
  },
  rating: {
    exif: [
      ['main', 0x4746, 'Rating'],
      ['main', 0x4749, 'RatingPercent'],
    ],
    xmp: ['xmp:Rating'],
  },
  label: { xmp: ['xmp:Label'] },
  'maker-note': {
    exif: [
      ['exif', MAKER_NOTE, 'MakerNote'],
      ['main', 0xc634, 'DNGPrivateData'],
    ],
  },
}
