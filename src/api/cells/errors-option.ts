import { choiceParameter } from '../request/query.ts'

/** Whether errors are answered as text in the cell, since a spreadsheet does not show the body of an error. */
export const ERRORS = choiceParameter('ErrorsOption', ['cell', 'status'], 'a way to report errors')
  .optional()
  .openapi({
    param: {
      description:
        'cell: an error is answered with status 200 and the text "ERR code field: what to do". status: an error is answered as a problem with its own status. status when left out.',
    },
  })
