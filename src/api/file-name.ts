/** Characters that some system does not allow in a file name, or that would lead to another folder. */
const NOT_IN_FILE_NAMES = /[\p{Cc}\p{Cf}"*/:<>?\\|%]/gu

/** The file name parameters of Content-Disposition: plain ASCII for old clients, with the project's name for others. */
export function fileName(projectName: string, plain: string): string {
  const name = [...projectName.replace(NOT_IN_FILE_NAMES, ' ').replace(/\s+/g, ' ').trim()].slice(0, 80).join('')
  const full = `${name.replace(/^\.+/, '') || 'project'} ${plain}`
  const encoded = encodeURIComponent(full).replace(
    /['()*]/g,
    (char) => `%${char.charCodeAt(0).toString(16).toUpperCase()}`,
  )
  return `filename="${plain}"; filename*=UTF-8''${encoded}`
}
