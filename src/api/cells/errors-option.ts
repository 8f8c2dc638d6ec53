import { choiceParameter } from '../request/query.ts'

/** Whether what is wrong is answered in the cell, since a spreadsheet shows no error's body. */
export const ERRORS = choiceParameter('ErrorsOption', ['cell', 'status'], 'a way of telling errors')
  .optional()
  .openapi({
    param: {
      description:
        'cell: an error is answered with status 200 and the text "ERR code field: what to do". status: an error is answered as a problem with its own status. status when left out.',
    },
  })
