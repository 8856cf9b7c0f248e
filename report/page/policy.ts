import { createHash } from 'node:crypto';

function hashSource(text: string): string {
  return `'sha256-${createHash('sha256').update(text, 'utf8').digest('base64')}'`;
}

/** A content security policy under which the page may use its own style and script and nothing else at all. */
export function contentSecurityPolicy(style: string, script: string): string {
  return [
    "default-src 'none'",
    `style-src ${hashSource(style)}`,
    `script-src ${hashSource(script)}`,
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
}
