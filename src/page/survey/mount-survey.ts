import type { Context, Hono } from 'hono'
import type { Workers } from '../../workers/workers.ts'
import { fieldsOf, show } from '../pages/answering.ts'
import { NO_FORM } from '../pages/plain-pages.ts'
import { readLengthsIn } from '../show-length.ts'
import { type SurveyFields, surveyFieldsOf } from './read-survey-form.ts'
import { SURVEY_EXAMPLE } from './survey-example.ts'
import { surveyPage } from './survey-page.ts'

export function mountSurvey(page: Hono, workers: Workers): void {
  page.get('/survey', (c) =>
    answered(c, c.req.query('example') === undefined ? surveyFieldsOf(new Map()) : SURVEY_EXAMPLE, c.req.query('show')),
  )

  page.post('/survey', async (c) => {
    const fields = await fieldsOf(c)
    return fields ? answered(c, surveyFieldsOf(fields), fields.get('show')) : show(c, NO_FORM, 415)
  })

  function answered(c: Context, fields: SurveyFields, units: string | undefined): Response {
    const { main, complete } = surveyPage(fields, readLengthsIn(units), (input) => workers.survey(input))
    return show(c, { title: 'Survey a garden', main }, complete ? 200 : 422)
  }
}
