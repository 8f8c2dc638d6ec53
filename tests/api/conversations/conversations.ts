/** A request as a client sends it, the address left out. */
export interface SaidBy {
  readonly method: string
  readonly headers: Readonly<Record<string, string>>
  /** What a client needs to go on. */
  readonly needs: 'the content' | 'its headers' | 'no such method' | 'the methods'
}

export interface Conversation {
  readonly client: string
  /** `observed`: taken down from the client itself. `from memory`: as it is known to do, not taken down. */
  readonly source: 'observed' | 'from memory'
  readonly requests: readonly SaidBy[]
}

const OFFICE_PROBE = 'Microsoft Office Existence Discovery'
const OFFICE_DISCOVERY = 'Microsoft Office Protocol Discovery'

const LIBRE_OFFICE = {
  Accept: '*/*',
  'Accept-Encoding': 'deflate, gzip, br, zstd',
  'User-Agent': 'LibreOffice 7.4.7.2 denylistedbackend/7.88.1 GnuTLS/3.7.9',
}
const METHODS_FIRST: SaidBy = { method: 'OPTIONS', headers: LIBRE_OFFICE, needs: 'the methods' }
const THEN_HEADERS: SaidBy = { method: 'HEAD', headers: LIBRE_OFFICE, needs: 'its headers' }
const THEN_CONTENT: SaidBy = { method: 'GET', headers: LIBRE_OFFICE, needs: 'the content' }

/** What clients say to an address that stands in a cell, a link or a query. */
export const CONVERSATIONS: readonly Conversation[] = [
  {
    client: 'Excel for Windows, WEBSERVICE()',
    source: 'from memory',
    requests: [
      {
        method: 'GET',
        headers: {
          Accept: '*/*',
          'Accept-Encoding': 'gzip, deflate',
          'User-Agent': 'Mozilla/4.0 (compatible; ms-office; MSOffice 16)',
        },
        needs: 'the content',
      },
    ],
  },
  {
    client: 'Office, looking at a link before it opens it',
    source: 'from memory',
    requests: [
      {
        method: 'OPTIONS',
        headers: { 'User-Agent': OFFICE_DISCOVERY, 'X-Office-Major-Version': '16' },
        needs: 'the methods',
      },
      { method: 'HEAD', headers: { 'User-Agent': OFFICE_PROBE }, needs: 'its headers' },
      {
        method: 'PROPFIND',
        headers: { 'User-Agent': 'Microsoft-WebDAV-MiniRedir/10.0.19045', Depth: '0', 'Content-Length': '0' },
        needs: 'no such method',
      },
      { method: 'GET', headers: { Accept: '*/*', 'User-Agent': OFFICE_PROBE }, needs: 'the content' },
    ],
  },
  {
    client: 'Excel, Power Query (Web.Contents)',
    source: 'from memory',
    requests: [
      {
        method: 'GET',
        headers: {
          Accept: '*/*',
          'Accept-Encoding': 'gzip, deflate',
          'User-Agent': 'Microsoft.Data.Mashup (https://go.microsoft.com/fwlink/?LinkID=304225)',
        },
        needs: 'the content',
      },
    ],
  },
  {
    client: 'Google Sheets, IMPORTDATA()',
    source: 'from memory',
    requests: [
      {
        method: 'GET',
        headers: {
          'Accept-Encoding': 'gzip, deflate, br',
          'User-Agent': 'Mozilla/5.0 (compatible; GoogleDocs; apps-spreadsheets; +http://docs.google.com)',
        },
        needs: 'the content',
      },
    ],
  },
  {
    client: 'LibreOffice, WEBSERVICE(), the first of a machine',
    source: 'observed',
    requests: [METHODS_FIRST, THEN_HEADERS, THEN_CONTENT],
  },
  {
    client: 'LibreOffice, WEBSERVICE(), the next of that machine',
    source: 'observed',
    requests: [THEN_HEADERS, THEN_CONTENT],
  },
  {
    client: 'LibreOffice, a linked table',
    source: 'observed',
    requests: [METHODS_FIRST, THEN_HEADERS, THEN_HEADERS, THEN_CONTENT],
  },
  {
    client: 'LibreOffice, a table opened by its address',
    source: 'observed',
    requests: [METHODS_FIRST, THEN_HEADERS, THEN_CONTENT, THEN_HEADERS],
  },
  {
    client: 'a download manager, a piece at a time',
    source: 'from memory',
    requests: [
      { method: 'HEAD', headers: { Accept: '*/*' }, needs: 'its headers' },
      { method: 'GET', headers: { Accept: '*/*', Range: 'bytes=0-3' }, needs: 'the content' },
    ],
  },
]
