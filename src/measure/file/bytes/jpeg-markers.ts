/** Markers of a JPEG, by the byte behind 0xff. @source ITU-T T.81, Table B.1. */
export const MARKER = {
  /** For temporary use in arithmetic coding. */
  TEM: 0x01,
  /** Start of frame: baseline, extended sequential and progressive, all Huffman-coded; and the other progressive processes. */
  SOF0: 0xc0,
  SOF1: 0xc1,
  SOF2: 0xc2,
  SOF6: 0xc6,
  SOF10: 0xca,
  SOF14: 0xce,
  SOF15: 0xcf,
  /** Huffman tables, a reserved marker and arithmetic conditioning: among the starts of frame, but none of them. */
  DHT: 0xc4,
  JPG: 0xc8,
  DAC: 0xcc,
  RST0: 0xd0,
  RST7: 0xd7,
  SOI: 0xd8,
  EOI: 0xd9,
  SOS: 0xda,
  /** Quantization tables. */
  DQT: 0xdb,
  /** Restart interval. */
  DRI: 0xdd,
  APP0: 0xe0,
  APP15: 0xef,
  /** Comment. */
  COM: 0xfe,
} as const
