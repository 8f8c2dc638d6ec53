import { crc32, deflateRawSync } from 'node:zlib'

/** A file of an archive; what the archive says of it may be made to lie. */
export interface PackedFile {
  readonly name: string
  readonly content: string | Buffer
  /** What is told of its size, where that is not the truth. */
  readonly toldSize?: number
  /** Told in the manner of archives over 4 GiB: sizes and place in an extra field. */
  readonly inZip64?: boolean
  readonly flags?: number
}

const ELSEWHERE = 0xffffffff

/** A ZIP archive made by hand (PKWARE APPNOTE 6.3, sections 4.3.7, 4.3.12, 4.3.16 and 4.5.3). */
export function zipOf(files: readonly PackedFile[]): Uint8Array<ArrayBuffer> {
  const parts: Buffer[] = []
  const directory: Buffer[] = []
  let at = 0
  for (const { name, content, toldSize, inZip64 = false, flags = 0 } of files) {
    const data = Buffer.from(content)
    const packed = deflateRawSync(data)
    const size = toldSize ?? data.length
    const extra = Buffer.alloc(inZip64 ? 28 : 0)
    if (inZip64) {
      extra.writeUInt16LE(1, 0)
      extra.writeUInt16LE(24, 2)
      for (const [n, value] of [size, packed.length, at].entries()) extra.writeBigUInt64LE(BigInt(value), 4 + 8 * n)
    }
    const local = Buffer.alloc(30)
    local.writeUInt32LE(0x04034b50, 0)
    const entry = Buffer.alloc(46)
    entry.writeUInt32LE(0x02014b50, 0)
    for (const [record, from] of [
      [local, 6],
      [entry, 8],
    ] as const) {
      record.writeUInt16LE(flags, from)
      record.writeUInt16LE(8, from + 2)
      record.writeUInt32LE(crc32(data), from + 8)
      record.writeUInt32LE(inZip64 ? ELSEWHERE : packed.length, from + 12)
      record.writeUInt32LE(inZip64 ? ELSEWHERE : size, from + 16)
      record.writeUInt16LE(name.length, from + 20)
    }
    entry.writeUInt16LE(extra.length, 30)
    entry.writeUInt32LE(inZip64 ? ELSEWHERE : at, 42)
    parts.push(local, Buffer.from(name), packed)
    directory.push(entry, Buffer.from(name), extra)
    at += local.length + name.length + packed.length
  }
  const listed = Buffer.concat(directory)
  const end = Buffer.alloc(22)
  end.writeUInt32LE(0x06054b50, 0)
  end.writeUInt16LE(files.length, 8)
  end.writeUInt16LE(files.length, 10)
  end.writeUInt32LE(listed.length, 12)
  end.writeUInt32LE(at, 16)
  return new Uint8Array(Buffer.concat([...parts, listed, end]))
}

const TYPE = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships'
const relation = (id: string, type: string, target: string) =>
  `<Relationship Id="${id}" Type="${TYPE}/${type}" Target="${target}"/>`

/** The files of a workbook with one sheet (or with `second` another), its rows as they stand in XML. */
export function workbookFiles(
  rows: string,
  more: { strings?: string; styles?: string; second?: string; state?: string } = {},
): PackedFile[] {
  const sheet = (inside: string) => `<worksheet><sheetData>${inside}</sheetData></worksheet>`
  return [
    {
      name: '_rels/.rels',
      content: `<Relationships>${relation('rId1', 'officeDocument', 'xl/workbook.xml')}</Relationships>`,
    },
    {
      name: 'xl/workbook.xml',
      content: `<workbook><sheets><sheet name="A" sheetId="1" ${more.state ?? ''} r:id="a"/><sheet name="B" sheetId="2" r:id="b"/></sheets></workbook>`,
    },
    {
      name: 'xl/_rels/workbook.xml.rels',
      content: `<Relationships>${relation('a', 'worksheet', 'worksheets/sheet1.xml')}${relation('b', 'worksheet', '/xl/worksheets/sheet2.xml')}${relation('c', 'sharedStrings', 'sharedStrings.xml')}${relation('d', 'styles', 'styles.xml')}</Relationships>`,
    },
    { name: 'xl/worksheets/sheet1.xml', content: sheet(rows) },
    { name: 'xl/worksheets/sheet2.xml', content: sheet(more.second ?? '') },
    ...(more.strings === undefined ? [] : [{ name: 'xl/sharedStrings.xml', content: `<sst>${more.strings}</sst>` }]),
    ...(more.styles === undefined
      ? []
      : [{ name: 'xl/styles.xml', content: `<styleSheet>${more.styles}</styleSheet>` }]),
  ]
}

/** A text that stands in its cell. */
export const textCell = (place: string, text: string) => `<c r="${place}" t="inlineStr"><is><t>${text}</t></is></c>`
