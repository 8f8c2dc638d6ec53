/** Every page below `/docs`, in the order of the index. */

export interface Guide {
  /** Its address is `/docs/` and this. */
  readonly name: string
  readonly title: string
  /** What it answers, for the index. */
  readonly about: string
  /** Written in Markdown: `src/docs/pages/`, the changes in `openapi/CHANGELOG.md`. */
  readonly written: boolean
}

interface Group {
  readonly title: string
  readonly guides: readonly Guide[]
}

const written = (name: string, title: string, about: string): Guide => ({ name, title, about, written: true })
const generated = (name: string, title: string, about: string): Guide => ({ name, title, about, written: false })

export const GROUPS: readonly Group[] = [
  {
    title: 'Planning and building',
    guides: [
      written(
        'plans',
        'Plans',
        'How to write a plan as JSON, what the answer holds, and what happens when something is wrong.',
      ),
      written(
        'figures',
        'Sidings, yards and other figures',
        'Crossovers, passing loops, yards, loops, wyes, double track and junctions from a few measures.',
      ),
      written(
        'shopping-list',
        'The shopping list',
        'Ties, fasteners, ballast, feeders, tax, spares, and where each number comes from.',
      ),
      written(
        'joints',
        'Joints and cutting',
        'Where joints go, the gaps in them, and how sticks are cut at the least cost.',
      ),
      written('ready-made', 'Ready-made track', 'When ready-made pieces replace loose rail.'),
      written('metals', 'Choosing a metal', 'One plan in brass, stainless and aluminium side by side.'),
      written(
        'survey',
        'Surveying the garden',
        'Where things are and how high, from a tape and a level; what to cut and to fill.',
      ),
      written(
        'trains',
        'Trains and grades',
        'What an engine takes up the hill, curves as grades, and how long vertical curves must be.',
      ),
      written(
        'bending',
        'Bending and checking',
        'Ordinates, springback, test bends, rollers, pegs in the ground, and readings of a bent rail.',
      ),
      written('paper', 'On paper and in CAD', 'Sheets as PDF, templates in true size, drawings as SVG and DXF.'),
    ],
  },
  {
    title: 'Keeping plans and stock',
    guides: [
      written('keeping-plans', 'Keeping plans', 'Saved plans, their revisions, and links that let others read them.'),
      written(
        'shed',
        'The shed',
        'One stock for all plans, what building takes from it, and track that stays or is lifted.',
      ),
    ],
  },
  {
    title: 'Spreadsheets',
    guides: [
      generated('spreadsheets', 'In your spreadsheet', 'One number in a cell, whole tables, and a ready workbook.'),
      written('tables', 'Tables', 'Every table as CSV, JSON or a workbook, and a track typed as rows.'),
    ],
  },
  {
    title: 'Reference',
    guides: [
      written(
        'programs',
        'From scripts and programs',
        'A command line that needs no service, and types of the interface for programs.',
      ),
      generated('api', 'The interface', 'Every request and answer, with a form to try them.'),
      generated('problems', 'Problems and findings', 'Every error, fault and finding, and when it occurs.'),
      written('changes', 'Changes', 'What stays stable within version 1, and what changed.'),
      written('running', 'Running the service', 'Settings, where plans are kept, PostgreSQL, backups and limits.'),
      written('accuracy', 'Accuracy', 'What each result was checked against, and what no program can know.'),
    ],
  },
]

export const GUIDES: readonly Guide[] = GROUPS.flatMap(({ guides }) => guides)
