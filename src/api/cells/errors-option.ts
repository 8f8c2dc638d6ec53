import { choiceParameter } from '../request/query.ts'

/** Whether what is wrong is answered in the cell, since a spreadsheet shows no error's body. */
export const ERRORS = choiceParameter('ErrorsOption', ['cell', 'status'], 'a way of telling errors')
  .optional()
  .openapi({
    param: {
      description:
        'cell: what is wrong is answered with status 200 as "ERR code field: what to do". status, as usual: as a problem with a status of its own.',
    },
  })
