/** Ids are UUIDs of version 7: they ascend, so that "newest first" is "id descending". */
export { v7 as newId, validate as isProjectId } from 'uuid'
