/** How this program is called again, with these words: it is on the path only where it was not started by npm. */
export function typeAgain(words = '', env: NodeJS.ProcessEnv = process.env): string {
  return `${env.npm_command ? 'npx ' : ''}dropwise ${words}`.trimEnd();
}
