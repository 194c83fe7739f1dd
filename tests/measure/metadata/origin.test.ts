import { expect, test } from 'vitest'
import { originOf } from '../../../src/measure/metadata/origin.ts'
import { ascii, long } from '../file/exif/exif-writer.ts'
import { blocks } from './blocks/blocks-writer.ts'
import { bag } from './formats/xmp-writer.ts'

test('what the file was made from', () => {
  const found = originOf(
    blocks({
      exif: { exif: [long(0x9211, 4711), ascii(0xa420, 'abc123')] },
      xmp: `<crs:RawFileName>OL_4711.raw</crs:RawFileName>
        <xmpMM:PreservedFileName>OL_4711.dng</xmpMM:PreservedFileName>
        <xmpMM:DocumentID>xmp.did:1</xmpMM:DocumentID>
        <xmpMM:OriginalDocumentID>xmp.did:0</xmpMM:OriginalDocumentID>
        <xmpMM:DerivedFrom stRef:documentID="xmp.did:9" stRef:instanceID="xmp.iid:9"/>
        <aux:ImageNumber>17</aux:ImageNumber>${bag('photoshop:DocumentAncestors', 'A1', 'A2')}`,
    }),
  )
  expect(found).toEqual({
    rawFileName: 'OL_4711.raw',
    preservedFileName: 'OL_4711.dng',
    documentId: 'xmp.did:1',
    originalDocumentId: 'xmp.did:0',
    derivedFrom: ['xmp.did:9', 'xmp.iid:9'],
    ancestors: ['A1', 'A2'],
    imageNumber: '4711',
    imageUniqueId: 'abc123',
  })
})

test('a reference as one text, as old programs wrote it', () => {
  const { derivedFrom } = originOf(blocks({ xmp: '<xmpMM:DerivedFrom>uuid:7</xmpMM:DerivedFrom>' }))
  expect(derivedFrom).toEqual(['uuid:7'])
})

test('the number of the frame from XMP where Exif has none', () => {
  expect(originOf(blocks({ xmp: '<aux:ImageNumber>17</aux:ImageNumber>' })).imageNumber).toBe('17')
})

test('nothing', () => {
  const found = originOf(blocks({}))
  expect(Object.values(found).every((value) => value === null || value.length === 0)).toBe(true)
})
