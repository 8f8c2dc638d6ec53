import { type Html, html } from '../html.ts'
import {
  faultNote,
  field,
  fieldsBut,
  inner,
  isFilledIn,
  isInUse,
  open,
  type Placed,
  partButtons,
  preservedField,
  rowsOf,
  textAt,
} from './controls.ts'
import { CURVE_SIZES } from './curve-sizes.ts'
import { breaksEditor, keepOutEditor } from './joints-editor.ts'
import { placesEditor } from './places-editor.ts'
import { ROWS, ROWS_FILE, ROWS_IGNORED } from './rows-from-table.ts'
import { tableEditor } from './table-editor.ts'
import { TURNOUT_KINDS } from './turnouts-editor.ts'

interface TrackShown {
  /** How many tracks there are; the only one cannot be removed. */
  readonly count: number
  /** The plan has kinds of turnout, so that elements may be turnouts. */
  readonly turnouts: boolean
  /** There are curve sizes to suggest. */
  readonly sizes: boolean
}

/** One track: its name, start position, elements and grade line. */
export function trackEditor(
  track: Placed,
  action: string,
  index: number,
  { count, turnouts, sizes }: TrackShown,
): Html {
  const joins = inner(track, 'joinsExisting')
  const more = fieldsBut(track, ...ALWAYS_SHOWN)
  const special = turnouts || hasSpecialTrack(track)
  const connecting = rowsOf(track, 'elements').some(
    (row) => textAt(row, 'kind') === 'connect' || isFilledIn(row, CONNECT_COLUMNS),
  )
  const isWide = special && rowsOf(track, 'elements').some(hasMoreThanItsKind)
  const own = track.faults.get(track.path) ?? []
  return html`<fieldset class="card track" id="${track.path}">
<legend>Track ${index + 1}${textAt(track, 'name') && html`: ${textAt(track, 'name')}`}</legend>
${preservedField(track)}${faultNote(track.path, own)}
<div class="fields">
${field(track, 'name')}
</div>
<div class="ticks" id="${joins.path}" role="group" aria-label="Track ends">
${preservedField(joins)}
${field(track, 'closed')}
${field(joins, 'start')}
${field(joins, 'end')}
${faultNote(joins.path, track.faults.get(joins.path) ?? [])}
</div>
<div class="scroll">${tableEditor(track, action, {
    table: 'elements',
    caption: 'Elements, in order from the start of the track',
    className: ['elements', special && 'special', isWide && 'wide', connecting && 'connecting']
      .filter(Boolean)
      .join(' '),
    row: 'element',
    add: 'Add five rows',
    first: ['kind', 'length', ...OF_CURVES, ...(special ? SPECIAL_COLUMNS : []), 'label'],
    without: [...(special ? [] : SPECIAL_COLUMNS), ...(connecting ? [] : CONNECT_COLUMNS)],
    lists: { type: TURNOUT_KINDS, ...(sizes && { across: CURVE_SIZES }) },
    showsAll: hasMoreThanItsKind,
  })}</div>
${index === 0 && howToFillIn(special)}
<div class="folds">
${fromSpreadsheet(track)}
${placesEditor(track)}
<details${open(isInUse(track, 'gradeLine', 'limits'))}>
<summary>Grade line</summary>
${tableEditor(track, action, {
  table: 'gradeLine',
  caption: 'Points where the grade changes: the elevation there, or the grade from there on',
  className: 'short grades',
  row: 'point',
  add: 'Add a point',
})}
<p class="hint">A vertical curve is centred on its point and leads evenly from one grade to the next.</p>
${tableEditor(track, action, {
  table: 'limits',
  caption: 'Stretches with their own maximum grade, such as hidden track that must be level',
  className: 'stretches limits',
  row: 'stretch',
  add: 'Add a stretch',
})}
</details>
<details${open(isInUse(track, 'ground'))}>
<summary>Ground <span class="hint">for cut and fill</span></summary>
${tableEditor(track, action, {
  table: 'ground',
  caption: 'The ground along the centre line as it is, before anything is dug',
  className: 'short ground',
  row: 'point',
  add: 'Add a point',
})}
<p class="hint">At least two points. A <a href="/survey">survey</a> with a level gives the stations of a line.</p>
</details>
<details${open(isInUse(track, 'breaks'))}>
<summary>Breaks in the rails</summary>
${breaksEditor(track, action)}
</details>
<details${open(isInUse(track, 'keepOut'))}>
<summary>Stretches without joints</summary>
${keepOutEditor(track, action)}
</details>
<details${open(isInUse(track, ...more.map(({ key }) => key)))}>
<summary>More about this track <span class="hint">remark, new or existing</span></summary>
<div class="fields">${more.map((each) => field(track, each))}</div>
</details>
</div>
${partButtons(action, track.path, `track ${index + 1}`, count, count > 1)}
</fieldset>`
}

/** What only turnouts and crossings have. */
const SPECIAL_COLUMNS = ['name', 'type', 'enters', 'leaves']

/** What only connections have. */
const CONNECT_COLUMNS = ['minimumRadius', 'easement', 'minimumTangent']

function hasSpecialTrack(track: Placed): boolean {
  return rowsOf(track, 'elements').some(
    (row) => ['turnout', 'crossing'].includes(textAt(row, 'kind')) || isFilledIn(row, SPECIAL_COLUMNS),
  )
}

const ALWAYS_SHOWN = ['name', 'closed']

const OF_CURVES = ['across', 'angle', 'turn']

/** What the style sheet hides in rows of a kind; of the kinds that are not here, whatever a straight has not. */
const NOT_ASKED: Readonly<Record<string, readonly string[]>> = {
  '': [...OF_CURVES, ...SPECIAL_COLUMNS, ...CONNECT_COLUMNS, 'label'],
  arc: [...SPECIAL_COLUMNS, ...CONNECT_COLUMNS],
  turnout: ['length', ...OF_CURVES, ...CONNECT_COLUMNS],
  crossing: ['length', 'across', 'turn', 'type', 'enters', 'leaves', ...CONNECT_COLUMNS],
  connect: ['length', ...OF_CURVES, ...SPECIAL_COLUMNS],
}

/** Whether a row has a value that its kind does not ask for, so that no cell of it may be hidden. */
function hasMoreThanItsKind(row: Placed): boolean {
  const kind = textAt(row, 'kind')
  return isFilledIn(row, NOT_ASKED[kind] ?? [...OF_CURVES, ...SPECIAL_COLUMNS, ...CONNECT_COLUMNS])
}

/** What the columns of the elements want; beside the first track only. */
function howToFillIn(special: boolean): Html {
  return html`<p class="hint">A straight or an easement needs a length. A curve needs the diameter or radius of its centre line, or its degree over a stated chord; its
angle or length; and its turn. An easement changes evenly from the curvature before it to the curvature after it.
Enter “fit” as a length, an angle or a curve size to have it worked out from where the track must end; with “fit” as the size of a curve and as the length of the straights on both sides, you get the widest curve that fits. A connection finds the whole path to what comes after it; its own fields appear once you press “Calculate”.
${special ? 'A turnout needs a name and one of the kinds of turnout below.' : html`For a turnout, first describe its kind under <a href="#turnoutTypes">Turnouts</a>.`}</p>`
}

/** Import of rows from a spreadsheet, which replace the elements above. */
function fromSpreadsheet(track: Placed): Html {
  const text = textAt(track, ROWS)
  const ignored = textAt(track, ROWS_IGNORED)
  const rows = `${track.path}.${ROWS}`
  const file = `${track.path}.${ROWS_FILE}`
  return html`<details${open(text !== '' || ignored !== '')}>
<summary>Elements from a spreadsheet</summary>
${ignored !== '' && html`<p role="status">The rows were read without these columns, which are not those of a track: ${ignored}.</p>\n`}<p class="hint">Copy the rows from your spreadsheet and paste them here, or choose a CSV, XLSX or ODS file. One row has the column names, in any order: kind, length, radius or diameter (or degree and chord),
angle, turn, label. Titles above it and columns of your own are skipped. Put the unit in the header, <code>length (ft)</code>, or in the cell; without a unit, lengths are in millimetres. The rows replace the elements above; nothing else changes.</p>
<div class="field wide"><label for="${rows}">Rows</label><textarea id="${rows}" name="${rows}" rows="4" spellcheck="false">
${text}</textarea></div>
<div class="field"><label for="${file}">Or choose a file</label><input type="file" id="${file}" name="${file}" accept=".csv,.tsv,.txt,.xlsx,.ods,text/csv"></div>
<p class="below"><button name="do" value="rows ${track.path}" formenctype="multipart/form-data" class="small">Use these rows</button></p>
</details>`
}
